"""A draft of a library file with one group, as text that reads back as the same group."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from torqref.document.escape import escape
from torqref.document.quoting import quoted
from torqref.document.refusal import Refusal
from torqref.quantity.reading import read_torque
from torqref.quantity.showing import show_torque
from torqref.quantity.term import Angle, Stage, Term, Torque

_TO_DO = (
    "# Draft from a quick walk. Before others rely on it: fill in the source (document, page), hold every",
    "# value against that page, and have a second person type the values blind (verified_by).",
)


@dataclass(frozen=True, slots=True, kw_only=True)
class Draft:
    """What a draft file says.

    Args:
        id, name: of the group.
        arrangement: the line that says where the bolts are.
        stages: kind and text of each stage.
        thread, grade, condition: as typed, empty where not.
        left_hand: tightened anticlockwise.
        title: title of the source.
        reference: where the values come from, in words.
        entered_by: who typed it.
        remarks: comments, a line each.
    """

    id: str
    name: str
    arrangement: str
    stages: tuple[tuple[str, str], ...]
    thread: str = ""
    grade: str = ""
    condition: str = ""
    left_hand: bool = False
    title: str = ""
    reference: str = ""
    entered_by: str = ""
    remarks: tuple[str, ...] = ()


def draft_text(draft: Draft) -> str:
    """The whole file, with comments that say what is still missing."""
    return "\n".join(_lines(draft)) + "\n"


def _lines(draft: Draft) -> Iterator[str]:
    yield from _TO_DO
    # A remark is one line of printable text, whatever was typed for it: it must not end its comment.
    yield from (f"# {escape(' '.join(remark.split()))}" for remark in draft.remarks)
    yield from ("format = 1", 'assembly = "to be named"', "")
    yield from ("[source]", 'kind = "shop"')
    yield from _keys(title=draft.title, reference=draft.reference, entered_by=draft.entered_by)
    yield from ('verified_by = ""', "", "[[group]]")
    yield from _keys(id=draft.id, name=draft.name, thread=draft.thread)
    yield from _keys(**{"class": draft.grade, "condition": draft.condition})
    if not draft.condition:
        yield '# condition = "dry"    # as the page says: dry, oiled, anti-seize'
    yield from ("left_hand = true",) if draft.left_hand else ()
    yield "# No picture of the page: the order of tightening is generic, not the manufacturer's."
    yield draft.arrangement
    for kind, text in draft.stages:
        yield from ("", "[[group.stage]]", f"{kind} = {quoted(text)}")


def _keys(**values: str) -> Iterator[str]:
    yield from (f"{name} = {quoted(value)}" for name, value in values.items() if value)


def stage_values(term: Term) -> tuple[tuple[str, str], ...]:
    """Kind and text of each stage of a term; a lone value keeps its equivalents, as printed."""
    if len(term.stages) == 1 and isinstance(term.stages[0], Torque):
        text = " ".join(term.text.split())
        return (("torque", text if _says(text, term.stages[0]) else show_torque(term.stages[0])),)
    return tuple(_value(stage) for stage in term.stages)


def _value(stage: Stage) -> tuple[str, str]:
    if isinstance(stage, Torque):
        return "torque", stage.text if _says(stage.text, stage) else show_torque(stage)
    if isinstance(stage, Angle):
        return ("back_off" if stage.aim < 0 else "angle"), stage.text
    return "hand", stage.text


def _says(text: str, torque: Torque) -> bool:
    """Whether a text alone says the same torque; a part cut out of a chain may not."""
    found = read_torque(text)
    if isinstance(found, Refusal):
        return False
    return (found.low, found.target, found.high, found.unit) == (
        torque.low,
        torque.target,
        torque.high,
        torque.unit,
    )
