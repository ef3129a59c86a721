"""A fastener group: the bolts of one joint, with their picture, their stages and their conditions."""

from __future__ import annotations

import re
from dataclasses import dataclass
from typing import Literal, get_args

from torqref.document.table import Table
from torqref.fastener.locking import is_threadlocked
from torqref.library.fastener import Fastener, read_fasteners
from torqref.library.handedness import is_left_hand
from torqref.library.order import impossible, tell_faults
from torqref.library.passes import read_passes
from torqref.library.picture import read_picture
from torqref.library.rows import slug
from torqref.library.source import NO_SOURCE, Source, read_source
from torqref.library.stage import KINDS, Stage, read_stages
from torqref.pattern.layout import Layout, Order, runs_text

Purpose = Literal["clamp", "seal", "adjust", "drive", "sensor"]
AfterTrouble = Literal["restart", "this place", "round again"]
ValueIs = Literal["at fastener", "setting with tool"]
# Each use has a digit of its own, and one is left for a set that is used up.
MOST_USES = 8
SECOND_CHECKS = ("typed", "marks")


@dataclass(frozen=True, slots=True, kw_only=True)
class Caution:
    """A caution; one that stands alone gets a screen of its own."""

    text: str
    alone: bool = False


@dataclass(frozen=True, slots=True, kw_only=True)
class Part:
    """A part that the work needs, and whether it may be used only once."""

    name: str
    count: int = 1
    one_time: bool = False


@dataclass(frozen=True, slots=True, kw_only=True)
class Parent:
    """What a thread is cut into: the material, and how much of the thread engages, as printed."""

    material: str = ""
    engagement: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class Group:
    """One fastener group of a library file.

    Args:
        id: the word that commands and job files use.
        name: the name on the page.
        assembly: the machine or vehicle of the file.
        file: the file it was read from.
        key: its table in the file, such as `group[2]`; messages find the line by it.
        thread, grade, length, socket: of the fasteners, as printed.
        purpose: how plausibility judges the value: clamp, seal, adjust, drive or sensor.
        value_is: whether the printed value is at the fastener or already the setting with the tool.
        condition: dry, oiled, anti-seize and on what.
        one_time: parts that may not be used again, in words.
        uses: how often a set of its fasteners may be tightened in all; 0 where the page does not say.
        locking: a locking nut whose measured drag is added.
        threadlocker: set in threadlocker, as the key or the condition says; once cured never pulled again.
        left_hand: tightened anticlockwise; a thread written with LH says it too.
        seen_from: from where the picture is drawn.
        mirrored: places that are drawn the other way round.
        places: the places of one walk, each with its own tick sheet.
        applies: facts of the vehicle it is for, such as engine letters.
        after_trouble: what a stripped or snapped fastener means for the rest.
        second_check: empty, `typed` (a second person types the value) or `marks`.
        fasteners: positions that differ from the rest.
        layout, order, stages: where, in which order, what.
        passes: the ready-made scheme that made the stages, empty for none.
        removal: an order of its own for loosening; None for the reverse.
        table: id of the reference table whose row it is; empty for a group of its own.
        typed: value and arrangement as typed for a quick walk; empty for a group of a file.
    """

    id: str
    name: str
    assembly: str
    file: str
    key: str
    source: Source
    layout: Layout
    order: Order
    stages: tuple[Stage, ...]
    passes: str = ""
    table: str = ""
    removal: Order | None = None
    fasteners: tuple[Fastener, ...] = ()
    aliases: tuple[str, ...] = ()
    thread: str = ""
    grade: str = ""
    length: str = ""
    socket: str = ""
    purpose: str = "clamp"
    value_is: str = "at fastener"
    condition: str = ""
    one_time: str = ""
    uses: int = 0
    locking: bool = False
    threadlocker: bool = False
    blind_holes: bool = False
    left_hand: bool = False
    seen_from: str = ""
    mirrored: tuple[str, ...] = ()
    places: tuple[str, ...] = ()
    applies: tuple[tuple[str, tuple[str, ...]], ...] = ()
    parent: Parent = Parent()
    after_trouble: str = "restart"
    second_check: str = ""
    cautions: tuple[Caution, ...] = ()
    before: tuple[str, ...] = ()
    after: tuple[str, ...] = ()
    parts: tuple[Part, ...] = ()
    trouble_reasons: tuple[str, ...] = ()
    typed: tuple[str, ...] = ()

    def fastener(self, label: int) -> Fastener:
        """What is fitted at a position: the group's own fastener, or the subset's."""
        for fastener in self.fasteners:
            if label in fastener.at:
                return fastener
        return Fastener(thread=self.thread, grade=self.grade, length=self.length, socket=self.socket)


def read_group(table: Table, assembly: str, inherited: Source = NO_SOURCE) -> Group | None:
    """A `[[group]]` table as a group, or None when a problem keeps it from being walked."""
    group, sound = read_faulty(table, assembly, inherited)
    return group if sound else None


def read_faulty(table: Table, assembly: str, inherited: Source = NO_SOURCE) -> tuple[Group, bool]:
    """The same as far as it can be read, and whether nothing keeps it from being walked."""
    told = len(table.findings.problems)
    identity = table.required("id", "cover")
    _tell_odd_id(table, identity)
    picture = read_picture(table)
    stages = read_passes(table, _read_stages(table), picture[0])
    group = _group(table, identity, assembly, inherited, picture, stages)
    table.close(_ON_STAGES)
    _check_labels(table, group)
    _check_values(table, group)
    _check_orders(table, group)
    faults = table.findings.problems[told:]
    return group, not any(problem.severity == "error" for problem in faults)


_ON_STAGES = dict.fromkeys((*KINDS, "recheck", "until", "within", "hold", "window"), "[[group.stage]]")


_ID = re.compile(r"[\w.+-]+")


def _group(
    table: Table,
    identity: str,
    assembly: str,
    inherited: Source,
    picture: tuple[Layout, Order, Order | None],
    stages: tuple[Stage, ...],
) -> Group:
    own = Fastener(
        thread=table.text("thread"),
        grade=table.text("class"),
        length=table.text("length"),
        socket=table.text("socket"),
    )
    layout, order, removal = picture
    return Group(
        id=identity,
        name=_name(table, identity),
        assembly=assembly,
        file=table.findings.document.file,
        key=table.key,
        source=read_source(table.table("source"), inherited),
        layout=layout,
        order=order,
        removal=removal,
        passes=table.text("passes"),
        stages=stages,
        fasteners=read_fasteners(table, own),
        thread=own.thread,
        grade=own.grade,
        length=own.length,
        socket=own.socket,
        aliases=table.texts("aliases"),
        purpose=table.word("purpose", get_args(Purpose), "clamp"),
        value_is=table.word("value_is", get_args(ValueIs), "at fastener"),
        condition=table.text("condition"),
        one_time=table.text("one_time"),
        uses=_uses(table),
        locking=table.flag("locking"),
        threadlocker=table.flag("threadlocker") or is_threadlocked(table.text("condition")),
        blind_holes=table.flag("blind_holes"),
        left_hand=_left_hand(table, own.thread),
        seen_from=table.text("seen_from"),
        mirrored=table.texts("mirrored"),
        places=_places(table),
        applies=_applies(table.table("applies")),
        parent=_parent(table.table("parent")),
        after_trouble=table.word("after_trouble", get_args(AfterTrouble), "restart"),
        second_check=table.word("second_check", SECOND_CHECKS),
        cautions=tuple(_caution(table, entry, place) for place, entry in _listed(table, "cautions")),
        before=table.texts("before"),
        after=table.texts("after"),
        parts=tuple(_part(part) for part in table.tables("parts")),
        trouble_reasons=table.texts("trouble_reasons"),
    )


def _tell_odd_id(table: Table, identity: str) -> None:
    """An id is typed at the vehicle and stands in names of files; a hidden character is told by itself."""
    if not identity or _ID.fullmatch(identity) or identity != table.values.get("id"):
        return
    words = f'"{identity}" is no word for command lines and names of files'
    mend = slug(identity.replace("..", " ")) or "cover"
    table.tell("id", words, f'Write id = "{mend}".', "warning")


def _name(table: Table, identity: str) -> str:
    name = table.text("name")
    if table.has("name") and not name.strip() and not table.told("name"):
        table.tell("name", "the name is empty", 'Write name = "Water pump", or take it off.', "warning")
    return name if name.strip() else identity


def _uses(table: Table) -> int:
    number = table.whole("uses")
    if number is not None and not 1 <= number <= MOST_USES:
        table.tell("uses", f"{number} uses", f"Write a number from 1 to {MOST_USES}, such as uses = 5.")
        return 0
    return number or 0


def _left_hand(table: Table, thread: str) -> bool:
    """Either key says it; where one says the other, nobody may guess which way it turns."""
    said, by_thread = table.flag("left_hand"), is_left_hand(thread)
    if by_thread and not said and table.has("left_hand"):
        table.tell(
            "left_hand", f'left_hand = false, and the thread is "{thread}"', "Keep the one that is right."
        )
    return said or by_thread


def _places(table: Table) -> tuple[str, ...]:
    places = table.texts("places")
    for place in sorted({place for place in places if places.count(place) > 1}):
        table.tell("places", f'"{place}" stands twice among the places', "Name each place once.")
    return places


def _read_stages(table: Table) -> tuple[Stage, ...]:
    tables = table.tables("stage")
    if not tables:
        table.tell(
            "stage", "a group needs at least one stage", 'Write [[group.stage]] and torque = "24 N·m".'
        )
    return tuple(
        stage for number, inner in enumerate(tables, start=1) for stage in read_stages(inner, number)
    )


def _listed(table: Table, name: str) -> list[tuple[int, object]]:
    return list(enumerate(table.entries(name), start=1))


def _caution(table: Table, entry: object, place: int) -> Caution:
    """A caution is a text, or a table with `text` and `alone`."""
    if isinstance(entry, str):
        return Caution(text=entry)
    if not isinstance(entry, dict):
        table.tell("cautions", "a caution is text", 'Write cautions = ["Let it cool down first"].')
        return Caution(text="")
    inner = table.inner("cautions", entry, place)
    caution = Caution(text=inner.required("text", "Let it cool down first"), alone=inner.flag("alone"))
    inner.close()
    return caution


def _part(table: Table) -> Part:
    part = Part(
        name=table.required("name", "gasket"),
        count=table.whole("count") or 1,
        one_time=table.flag("one_time"),
    )
    table.close()
    return part


def _parent(table: Table | None) -> Parent:
    if table is None:
        return Parent()
    parent = Parent(material=table.text("material"), engagement=table.text("engagement"))
    table.close()
    return parent


def _applies(table: Table | None) -> tuple[tuple[str, tuple[str, ...]], ...]:
    """Facts such as engine = ["Q"]: any key, each with the words it may have."""
    if table is None:
        return ()
    return tuple((name, table.texts(name)) for name in table.values)


def _check_labels(table: Table, group: Group) -> None:
    """Positions named by subsets and stages must be in the picture; places drawn mirrored must exist."""
    known = set(group.layout.labels)
    for where, labels in _named_labels(group):
        missing = sorted(set(labels) - known)
        if missing:
            shown = ", ".join(str(label) for label in missing)
            table.tell(where, f"position {shown} is not in the picture", _known_positions(known))
    for place in group.mirrored:
        if place not in group.places:
            table.tell(
                "mirrored", f'"{place}" is not one of the places', f"Places: {', '.join(group.places)}."
            )


def _check_orders(table: Table, group: Group) -> None:
    """An order of a stage visits every position of that stage, each once unless it says otherwise."""
    for stage in group.stages:
        if stage.order is None or not group.layout.positions:
            continue
        layout = group.layout.only(stage.at) if stage.at else group.layout
        found = tuple(impossible(stage.order, layout, revisit=stage.revisit))
        tell_faults(table, f"stage[{stage.number}].order", found)


def _check_values(table: Table, group: Group) -> None:
    """A subset has one value a torque stage, so that no stage has to guess which one is its own."""
    stages = sum(stage.kind == "torque" and not stage.recheck for stage in group.stages)
    for number, fastener in enumerate(group.fasteners, start=1):
        if fastener.torques and len(fastener.torques) != stages:
            given = len(fastener.torques)
            table.tell(
                f"fastener[{number}].torque",
                f"{given} value{'s' if given > 1 else ''} for {stages} torque stages",
                'Write one value a torque stage: torque = ["5 N·m", "9–11 N·m"].',
            )


def _named_labels(group: Group) -> list[tuple[str, tuple[int, ...]]]:
    subsets = [(f"fastener[{n}].at", fastener.at) for n, fastener in enumerate(group.fasteners, start=1)]
    stages = [(f"stage[{stage.number}].at", stage.at) for stage in group.stages]
    return subsets + stages


def _known_positions(known: set[int]) -> str:
    return f"Positions are {runs_text(known)}." if known else "The picture has no positions."
