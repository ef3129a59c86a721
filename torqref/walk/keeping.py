"""Keeps a quick walk as a draft group in the user's own library, with what was corrected on the way."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, replace
from pathlib import Path
from typing import TYPE_CHECKING

from torqref.document.escape import escape
from torqref.document.newfile import free_name, write_new
from torqref.document.refusal import Refusal
from torqref.quantity.term import Torque
from torqref.walk.plan import Plan
from torqref.walk.progress import Progress

if TYPE_CHECKING:
    from torqref.walk.session import Session

ENDING = ".toml"
_NOTE = "kept as draft "


@dataclass(frozen=True, slots=True, kw_only=True)
class Kept:
    """What became of it.

    Args:
        path: the file that was written, or None.
        sentence: what happened, for the technician.
    """

    path: Path | None
    sentence: str

    @property
    def note(self) -> str:
        """The remark for the record of the walk."""
        return f"{_NOTE}{self.path.name if self.path else ''}"


def may_keep(progress: Progress) -> bool:
    """Whether this is a quick walk at its end that was not kept yet."""
    kept = any(note.startswith(_NOTE) for note in progress.notes)
    return bool(progress.plan.typed) and progress.finished and not kept


def keep_walk(session: Session, folder: Path) -> Kept:
    """Keep an open walk that is at its end, and say so in its record."""
    kept = keep(session.progress, folder, walk=session.header.id, by=session.by)
    if kept.path is not None:
        session.do("note", kept.note)
    return kept


def keep(progress: Progress, folder: Path, *, walk: str, by: str = "") -> Kept:
    """Write the draft of a quick walk into a library folder; nothing there is ever replaced.

    Args:
        progress: the walk at its end.
        folder: the user's own library folder; made where it is missing.
        walk: id of the walk, for the comment that says where the values come from.
        by: who worked.

    Returns:
        The file, or why there is none.
    """
    if not progress.plan.typed:
        return Kept(path=None, sentence="Only a quick walk is kept; this group is in the library already.")
    if not may_keep(progress):
        return Kept(path=None, sentence="Not kept: the walk is not at its end, or it was kept already.")
    text = _text(progress, folder, walk, by)
    if isinstance(text, Refusal):
        return Kept(path=None, sentence=f"Not kept: {text.message}.")
    name, content = text
    path = folder / f"{name}{ENDING}"
    if (problem := write_new(path, content)) is not None:
        return Kept(path=None, sentence=f"Not kept: {problem.sentence()}")
    where = escape(str(path))
    return Kept(
        path=path, sentence=f"Kept as draft {name}: {where}. `torqref check {where}` looks through it."
    )


def _text(progress: Progress, folder: Path, walk: str, by: str) -> tuple[str, str] | Refusal:
    """Name and content of the draft; both are made from what was typed, and from nothing else."""
    from torqref.library.arrangement import read_arrangement
    from torqref.library.draft import draft_text, stage_values
    from torqref.library.quick import draft_of, read_typed, slug

    text, arrangement = progress.plan.typed
    typed, arranged = read_typed(text), read_arrangement(arrangement)
    if isinstance(typed, Refusal):
        return typed
    if isinstance(arranged, Refusal):
        return arranged
    corrected = _corrected(progress)
    values = stage_values(typed.term)
    stages = tuple((kind, corrected.get(value, value)) for kind, value in values)
    name = free_name(folder, f"draft-{slug(typed, arranged, stages[0][1])}", ENDING)
    draft = draft_of(typed, arranged, by=by, identity=name)
    remarks = (f"Walked and recorded as {walk}.", *_remarks(progress, corrected))
    title = draft.name
    for old, new in corrected.items():
        title = title.replace(old, new)
    return name, draft_text(replace(draft, name=title, stages=stages, remarks=remarks))


def _corrected(progress: Progress) -> Mapping[str, str]:
    """Printed text of each value that the page corrected on the way, and the value it has now."""
    plan = progress.plan
    return {
        _printed(plan, old.target): new.target.text
        for old, new in zip(plan.dials, progress.dials, strict=True)
        if old.target != new.target
    }


def _printed(plan: Plan, torque: Torque) -> str:
    """The text of the stage that a value came from: with its equivalents, as it was typed."""
    rounds = (round_.text for round_ in plan.rounds if torque.text in round_.text)
    return next(rounds, torque.text)


def _remarks(progress: Progress, corrected: Mapping[str, str]) -> Iterator[str]:
    """What the walk itself found out."""
    for old, new in corrected.items():
        yield f"Typed as {old}; the page said {new}."
    yield from (f"Note at the vehicle: {' '.join(note.split())}" for note in progress.notes)
