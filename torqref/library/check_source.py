"""Checks of where a group comes from and of the conditions its values hold under."""

from __future__ import annotations

import re
from collections.abc import Iterator
from datetime import date

from torqref.library.group import Group
from torqref.library.remark import Remark

_FASTENER = re.compile(r"\b(bolt|screw|nut|stud|washer|capscrew|plug)s?\b", re.IGNORECASE)


def check_source(group: Group) -> Iterator[Remark]:
    """A value without a source; a published one without its page and how it was seen."""
    source = group.source
    if not source.kind or not source.title:
        missing = "source" if not source.title else "kind of source"
        yield Remark(
            key="source",
            message=f"the values have no {missing}",
            mend='Write [source] with kind = "published", "shop" or "invented", title and reference.',
        )
    elif not source.invented and not source.reference:
        yield Remark(
            key="source",
            message=f'"{source.title}" is given without a page',
            mend='Write reference = "page, sheet or table", so that the next one can compare.',
            severity="hint",
        )
    if source.kind == "published" and not source.seen:
        yield Remark(
            key="source",
            message="a published value without a word about how it was seen",
            mend='Write seen = "read in a copy of the document", or what is true.',
            severity="hint",
        )


def check_verification(group: Group) -> Iterator[Remark]:
    """A second entry by the same person, or without a date that can be read."""
    source = group.source
    if not source.verified_by:
        return
    if source.verified_by.casefold().strip() == source.entered_by.casefold().strip():
        yield Remark(
            key="source.verified_by",
            message=f"{source.verified_by} entered the values and verified them",
            mend="Let another person type them: torqref check --second FILE.",
        )
    try:
        date.fromisoformat(source.verified_on)
    except ValueError:
        yield Remark(
            key="source.verified_on",
            message=f'"{source.verified_on}" is not the date of a verification',
            mend="Write verified_on = 2027-03-31, the day it was done.",
        )


def check_condition(group: Group) -> Iterator[Remark]:
    """Dry or oiled changes the clamp load by a third: it has to be said."""
    pulled = any(stage.kind == "torque" for stage in group.stages)
    if pulled and not group.condition and group.purpose == "clamp":
        yield Remark(
            key="condition",
            message="dry or oiled is not said",
            mend='Write condition = "dry", or what the page says; "not stated" if it says nothing.',
        )


def check_one_time(group: Group) -> Iterator[Remark]:
    """One-time fasteners that the first stop would not name, and angle stages without a word of reuse."""
    for number, part in enumerate(group.parts, start=1):
        if part.one_time and not group.one_time and _FASTENER.search(part.name):
            yield Remark(
                key=f"parts[{number}]",
                message=f'"{part.name}" is for one use only, and the group does not say so',
                mend=f'Write one_time = "{part.name}": the walk asks for it before the first pull.',
            )
    turned = next((stage for stage in group.stages if stage.kind == "angle"), None)
    if turned is not None and not group.one_time and group.purpose == "clamp":
        yield Remark(
            key=f"stage[{turned.number}]",
            message="angle stages, and nothing is said about using the fasteners again",
            mend='Write one_time = "bolts", or one_time = "none: length check" with what the page says.',
        )
