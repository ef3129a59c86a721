"""The kit as a page to print and tick by hand."""

from __future__ import annotations

from collections.abc import Iterator

from torqref.sheets import paper
from torqref.sheets.kit import HEADINGS, fluid_line, part_line, tool_line
from torqref.walk.job_view import DEFER
from torqref.walk.kit import Kit


def kit_page(kit: Kit) -> str:
    """The page."""
    return paper.page(f"Kit: {kit.job}", _body(kit), practice=kit.invented)


def _body(kit: Kit) -> Iterator[str]:
    yield paper.heading(f"Kit: {kit.job}", 1)
    yield paper.paragraph(kit.assembly)
    yield paper.practice_box(kit.invented)
    if kit.missing:
        yield paper.heading("MISSING")
        yield paper.listed(kit.missing)
    for kind, title in HEADINGS.items():
        tools = [tool for tool in kit.tools if tool.kind == kind]
        if tools:
            yield paper.heading(title, 3)
            yield paper.boxes(tool_line(tool) for tool in tools)
    if kit.parts:
        yield paper.heading("Parts", 3)
        yield paper.boxes(part_line(part) for part in kit.parts)
    if kit.fluids:
        yield paper.heading("Fluids", 3)
        yield paper.boxes(fluid_line(fluid) for fluid in kit.fluids)
    yield paper.paragraph(f"Source: {kit.source}", "small")
    yield paper.paragraph(DEFER)
