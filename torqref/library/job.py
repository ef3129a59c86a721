"""A job file: the whole repair from laying out tools to sign-off, read into frozen values.

A step is one of: `safe` (must be so, never passed by accident), `text` (a page, or alone), `do` (a
fastener group, whole or up to a stage), `check` (a look or a reading), `wait`. Groups stay in the library;
a job only names them.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass, replace
from fractions import Fraction
from pathlib import Path

from torqref.document.problem import Problem
from torqref.document.table import Table
from torqref.document.toml import Document, read_document
from torqref.library.item import Facts, Item, Notice
from torqref.library.source import NO_SOURCE, Source, read_source
from torqref.library.stage import Due, read_due
from torqref.library.value import measure_at, minutes_at
from torqref.quantity.term import Measure

FORMAT = 1
KINDS = ("safe", "text", "do", "check", "wait")
_EXAMPLE = 'Write one of safe, text, do, check, wait: do = "cylinder-head".'


@dataclass(frozen=True, slots=True, kw_only=True)
class Step:
    """One step of a job as its file writes it.

    Args:
        kind: one of `KINDS`.
        text: the words, or for `do` the id of the group.
        line: line in the file, None if unsure.
        id: name by which other steps need it; empty for none.
        alone: a press of its own.
        to_stage: number of the last stage to walk now, 0 for all that is left.
        place: the one place of the group, empty for all.
        loosen: loosen instead of tightening.
        wrench, adapter: tools of the rack to take, empty for the best and for none.
        band: what a reading must lie in; None where a look is enough.
        drag_of: the group whose locking drag this reading is.
        due: when a wait is over.
        within: minutes in which the step must be done; counted from the end of `since`.
        since: id of the step from which that is counted; empty for the step before.
        needs: ids of steps that must be done first.
        applies: facts of the vehicle it is for.
        note: what to mind.
        source: where the step stands.
    """

    kind: str
    text: str
    line: int | None = None
    id: str = ""
    alone: bool = False
    to_stage: int = 0
    place: str = ""
    loosen: bool = False
    wrench: str = ""
    adapter: str = ""
    band: Measure | None = None
    drag_of: str = ""
    due: Due | None = None
    within: Fraction | None = None
    since: str = ""
    needs: tuple[str, ...] = ()
    applies: Facts = ()
    note: str = ""
    source: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class Recheck:
    """What is to be looked at again after sign-off, and when.

    Args:
        text: what.
        due: when, in time, distance or heat cycles.
        band: what a reading must lie in, or None.
        owner: whether it goes on the slip for the owner.
        source: where that stands.
    """

    text: str
    due: Due
    band: Measure | None = None
    owner: bool = False
    source: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class Job:
    """A repair from laying out tools to sign-off.

    Args:
        id: the word that records use.
        name: the name of the repair.
        assembly: the vehicle or machine.
        file: the file it was read from.
        source: where it comes from.
        facts: what `applies` looks at, each with the words it may have; one word is given, several are asked.
        steps: what to do, in order.
        parts, fluids, tools: to lay out, beside what the groups need.
        rechecks: what stays due after sign-off.
        cautions: cautions of the whole job.
        signatures: how many different people sign.
    """

    id: str
    name: str
    assembly: str
    file: str
    source: Source
    steps: tuple[Step, ...]
    facts: Facts = ()
    parts: tuple[Item, ...] = ()
    fluids: tuple[Item, ...] = ()
    tools: tuple[Item, ...] = ()
    rechecks: tuple[Recheck, ...] = ()
    cautions: tuple[Notice, ...] = ()
    signatures: int = 1

    @property
    def groups(self) -> tuple[str, ...]:
        """Ids of the groups it walks, each once, in the order of the job."""
        return tuple(dict.fromkeys(step.text for step in self.steps if step.kind == "do"))


def read_job(path: Path) -> tuple[Job | None, tuple[Problem, ...]]:
    """A job file, and every fault in it; None where a fault keeps it from being worked by."""
    document = read_document(path)
    return (None, (document,)) if isinstance(document, Problem) else job_of(document)


def is_job(values: Mapping[str, object]) -> bool:
    """Whether a document is a job file and no library."""
    return "job" in values or "step" in values


def job_of(document: Document) -> tuple[Job | None, tuple[Problem, ...]]:
    """The same from a document that was already read."""
    return job_in(Table.of(document))


def job_in(table: Table) -> tuple[Job | None, tuple[Problem, ...]]:
    """The same from the top table of a document."""
    _read_format(table)
    facts = _words(table.table("facts"))
    job = Job(
        id=table.required("job", "head-off"),
        name=table.text("name") or table.text("job"),
        assembly=table.text("assembly"),
        file=table.findings.document.file,
        source=read_source(table.table("source"), NO_SOURCE),
        facts=facts,
        steps=tuple(step for inner in table.tables("step") if (step := _step(inner, facts)) is not None),
        parts=_items(table, "parts"),
        fluids=_items(table, "fluids"),
        tools=_items(table, "tools"),
        rechecks=tuple(found for inner in table.tables("recheck") if (found := _recheck(inner)) is not None),
        cautions=_notices(table),
        signatures=_signatures(table),
    )
    if not table.tables("step"):
        table.tell("", "the job has no [[step]]", 'Write [[step]] and do = "cylinder-head".')
    table.close(_ON_STEPS)
    _check_names(table, job)
    broken = any(problem.severity == "error" for problem in table.problems)
    return (None if broken else job), table.problems


_ON_STEPS = dict.fromkeys((*KINDS, "alone", "to_stage", "band", "within", "needs", "due"), "[[step]]")


def _read_format(table: Table) -> None:
    number = table.whole("format")
    if "format" not in table.values:
        table.tell("", "the file does not say which format it has", f"Write format = {FORMAT} at the top.")
    elif number is not None and number != FORMAT:
        table.tell("format", f"format {number} is not known here", f"Write format = {FORMAT}.")


def _signatures(table: Table) -> int:
    number = table.whole("signatures")
    if number is not None and not 1 <= number <= 5:
        table.tell("signatures", f"{number} signatures", "Write a number from 1 to 5.")
    return 1 if number is None else number


def _words(table: Table | None) -> Facts:
    """Facts such as engine = ["Q", "R"]: any name, each with its words."""
    if table is None:
        return ()
    read = tuple((name, table.texts(name)) for name in table.values)
    for name, words in read:
        if not words and name in table.values:
            table.tell(name, f'the fact "{name}" has no word', f'Write {name} = "Q", or a list to be asked.')
    return tuple(pair for pair in read if pair[1])


def _items(table: Table, name: str) -> tuple[Item, ...]:
    return tuple(_item(inner, f"{name[:-1]} of the job") for inner in table.tables(name))


def _item(table: Table, example: str) -> Item:
    item = Item(
        name=table.required("name", example),
        count=_count(table),
        amount=table.text("amount"),
        one_time=table.flag("one_time"),
        note=table.text("note"),
        source=table.text("source"),
    )
    table.close()
    return item


def _count(table: Table) -> int:
    number = table.whole("count")
    if number is not None and number < 1:
        table.tell("count", f"the count is {number}", "Write a whole number above zero.")
    return number if number is not None else 0 if table.has("amount") else 1


def _notices(table: Table) -> tuple[Notice, ...]:
    """A caution is a text, or a table with `text` and `source`."""
    found = []
    for place, entry in enumerate(table.entries("cautions"), start=1):
        if isinstance(entry, str):
            found.append(Notice(text=entry))
        elif isinstance(entry, dict):
            inner = table.inner("cautions", entry, place)
            text = inner.required("text", "Let it cool down first")
            found.append(Notice(text=text, source=inner.text("source")))
            inner.close()
        else:
            table.tell(f"cautions[{place}]", "a caution is text", 'Write cautions = ["Let it cool first"].')
    return tuple(found)


def _step(table: Table, facts: Facts) -> Step | None:
    kinds = [kind for kind in KINDS if table.has(kind)]
    if len(kinds) != 1:
        found = " and ".join(kinds) if kinds else "no kind of step"
        table.tell("", f"a step has {found}, expected exactly one kind", _EXAMPLE)
        return None
    kind = kinds[0]
    shared = Step(
        kind=kind,
        text=table.required(kind, "what to do"),
        line=table.findings.line(table.key),
        id=table.text("id"),
        alone=kind == "safe",
        needs=table.texts("needs"),
        applies=_applies(table, facts),
        within=minutes_at(table, "within"),
        since=table.text("since"),
        note=table.text("note"),
        source=table.text("source"),
    )
    step = _OWN_KEYS[kind](table, shared) if kind in _OWN_KEYS else shared
    table.close(_elsewhere(kind))
    return step


def _do_keys(table: Table, shared: Step) -> Step:
    stage = table.whole("to_stage")
    if stage is not None and stage < 1:
        table.tell("to_stage", f"there is no stage {stage}", "Write the number of the last stage to walk.")
    return replace(
        shared,
        to_stage=stage or 0,
        place=table.text("place"),
        loosen=table.flag("loosen"),
        wrench=table.text("wrench"),
        adapter=table.text("adapter"),
    )


def _check_keys(table: Table, shared: Step) -> Step:
    return replace(shared, band=measure_at(table, "band"), drag_of=table.text("drag_of"))


def _wait_keys(table: Table, shared: Step) -> Step:
    return replace(shared, due=read_due(table.table("due")))


def _text_keys(table: Table, shared: Step) -> Step:
    return replace(shared, alone=table.flag("alone"))


_OWN_KEYS: dict[str, Callable[[Table, Step], Step]] = {
    "text": _text_keys,
    "do": _do_keys,
    "check": _check_keys,
    "wait": _wait_keys,
}
_OWNERS = {
    "alone": "text", "to_stage": "do", "place": "do", "loosen": "do", "wrench": "do",
    "adapter": "do", "band": "check", "drag_of": "check", "due": "wait",
}  # fmt: skip


def _elsewhere(kind: str) -> dict[str, str]:
    return {key: f"a step with `{owner}`" for key, owner in _OWNERS.items() if owner != kind}


def _applies(table: Table, facts: Facts) -> Facts:
    """Which facts a step is for; every word must be one that the job knows."""
    inner = table.table("applies")
    read = _words(inner)
    known = dict(facts)
    for name, words in read:
        strange = [word for word in words if word not in known.get(name, ())]
        if inner is not None and strange:
            inner.tell(
                name,
                f'the job has no fact {name} = "{strange[0]}"',
                f"Write it under [facts], or one of: {', '.join(known.get(name, ())) or 'no words there'}.",
            )
    return read


def _recheck(table: Table) -> Recheck | None:
    due = read_due(table.table("due"))
    if due is None and not table.has("due"):
        table.tell("due", "a recheck needs its due", "Write due = { km = 500 }.")
    found = Recheck(
        text=table.required("text", "coolant level"),
        due=due or Due(minutes=None, text=""),
        band=measure_at(table, "band"),
        owner=table.flag("owner"),
        source=table.text("source"),
    )
    table.close()
    return found


def _check_names(table: Table, job: Job) -> None:
    """Ids are used once, and what is needed stands earlier in the file."""
    known: list[str] = []
    for inner in table.tables("step"):
        for name in ("needs", "since"):
            for word in inner.texts(name):
                if word not in known:
                    inner.tell(name, f'no earlier step has the id "{word}"', _known_ids(known))
        identity = inner.text("id")
        if identity in known:
            inner.tell("id", f'the id "{identity}" stands here twice', "Give every step an id of its own.")
        elif identity:
            known.append(identity)


def _known_ids(known: Sequence[str]) -> str:
    return f"Earlier ids: {', '.join(known)}." if known else 'Give an earlier step an id = "…".'
