"""The card of a group as one printed page, for the fender or the toolbox lid."""

from __future__ import annotations

from collections.abc import Iterator

from torqref.library.group import Group
from torqref.library.source import DEFER
from torqref.sheets import paper
from torqref.sheets.card import also, facts_of, minded, order_text, stage_text
from torqref.sheets.picture import group_picture


def card_page(group: Group) -> str:
    """The page."""
    return paper.page(f"Card: {group.name}", _body(group), practice=group.source.invented, kind="card")


def _body(group: Group) -> Iterator[str]:
    yield paper.heading(group.name, 1)
    yield paper.paragraph(f"{group.assembly}  [{group.id}]")
    yield paper.practice_box(group.source.invented)
    for caution in group.cautions:
        yield paper.paragraph(f"CAUTION: {caution.text}", "caution")
    if len(group.layout.positions) > 1:
        seen = f"seen from {group.seen_from}; " if group.seen_from else ""
        caption = f"{seen}order {order_text(group)}"
        yield paper.figure(group_picture(group), caption, "wide" if len(group.layout.positions) > 40 else "")
    stages = ((stage.number, stage_text(stage), also(stage)) for stage in group.stages)
    yield paper.table(("Stage", "As printed", "Converted"), stages, "stages", tight=(0, 2))
    yield _subsets(group)
    yield paper.facts(facts_of(group))
    yield paper.listed(minded(group))
    yield paper.listed(_parts(group))
    yield paper.listed(f"after: {text}" for text in group.after)
    yield paper.paragraph(f"Source: {group.source.sentence()}", "small")
    entered = group.source.entered_by or "nobody named"
    checked = group.source.verified_by or "nobody yet"
    yield paper.paragraph(f"Entered by {entered}; typed a second time by {checked}", "small")
    yield paper.paragraph(DEFER)


def _subsets(group: Group) -> str:
    return paper.table(
        ("At", "Thread", "Length", "Socket", "Value", "Mind"),
        (
            (
                " ".join(str(label) for label in fastener.at),
                fastener.thread,
                fastener.length,
                fastener.socket,
                ", ".join(torque.text for torque in fastener.torques),
                fastener.note,
            )
            for fastener in group.fasteners
        ),
    )


def _parts(group: Group) -> Iterator[str]:
    for part in group.parts:
        yield f"{part.count} x {part.name}{', new: used once only' if part.one_time else ''}"
