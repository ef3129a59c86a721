"""The kit as lines of text: what to lay out, box by box to tick."""

from __future__ import annotations

from collections.abc import Iterator

from torqref.library.item import Item
from torqref.library.source import PRACTICE
from torqref.walk.job_view import DEFER
from torqref.walk.kit import Kit, Supply, Tool

HEADINGS = {
    "wrench": "Torque wrenches, with what they are set to",
    "adapter": "Adapters",
    "socket": "Sockets",
    "angle": "Angle",
    "marking": "Marking",
    "holding": "Holding",
    "measuring": "Measuring",
    "other": "Other tools",
}


def kit_text(kit: Kit) -> Iterator[str]:
    """The kit, a line each."""
    yield f"Kit: {kit.job}"
    yield from (line for line in (kit.assembly, PRACTICE if kit.invented else "") if line)
    for kind, heading in HEADINGS.items():
        yield from _block(heading, [tool_line(tool) for tool in kit.tools if tool.kind == kind])
    yield from _block("Parts", [part_line(part) for part in kit.parts])
    yield from _block("Fluids", [fluid_line(fluid) for fluid in kit.fluids])
    yield from _block("MISSING", list(kit.missing), mark="!")
    yield ""
    yield f"Source: {kit.source}"
    yield DEFER


def _block(heading: str, lines: list[str], mark: str = "[ ]") -> Iterator[str]:
    if lines:
        yield ""
        yield heading
        yield from (f"  {mark} {line}" for line in lines)


def tool_line(tool: Tool) -> str:
    """A tool, its note and what it is for."""
    note = f": {tool.note}" if tool.note else ""
    uses = f"; for {', '.join(tool.uses)}" if tool.uses and tool.kind != "wrench" else ""
    return f"{tool.name}{note}{uses}"


def part_line(part: Supply) -> str:
    """A part with its count, and whether it is used once only."""
    once = ", NEW: used once only" if part.one_time else ""
    note = f", {part.note}" if part.note else ""
    uses = f"; for {', '.join(part.uses)}" if part.uses else ""
    return f"{part.count} x {part.name}{once}{note}{uses}"


def fluid_line(item: Item) -> str:
    """A fluid with its amount."""
    return ", ".join(part for part in (item.name, item.amount, item.note) if part)


def kit_values(kit: Kit) -> dict[str, object]:
    """The kit for JSON."""
    return {
        "tools": [
            {"kind": tool.kind, "name": tool.name, "note": tool.note, "for": list(tool.uses)}
            for tool in kit.tools
        ],
        "parts": [
            {
                "name": part.name,
                "count": part.count,
                "one_time": part.one_time,
                "note": part.note,
                "for": list(part.uses),
            }
            for part in kit.parts
        ],
        "fluids": [{"name": item.name, "amount": item.amount, "note": item.note} for item in kit.fluids],
        "missing": list(kit.missing),
    }
