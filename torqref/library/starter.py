"""A first library file from a few answers: valid as it stands, with comments and a diagram ready to fill."""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import dataclass

from torqref.document.quoting import quoted
from torqref.document.refusal import Refusal
from torqref.fastener.grade import read_grade
from torqref.fastener.thread import Thread, read_thread
from torqref.library.arrangement import Arrangement, read_arrangement
from torqref.library.draft import stage_values
from torqref.pattern.drawing import draw
from torqref.pattern.layout import Layout
from torqref.quantity.reading import read_term

# Each question in the order it is asked: the field, the question, an example.
QUESTIONS: tuple[tuple[str, str, str], ...] = (
    ("assembly", "which vehicle or machine", "Brindle 24 utility truck, engine Q"),
    ("name", "name of the group on the page", "Front cover to block"),
    ("thread", "thread", "M8x1.25"),
    ("grade", "class or grade on the head", "8.8"),
    ("bolts", "how many bolts, or how they stand", "2x5, circle 8, 3"),
    ("values", "values in their order, a semicolon between them", "12 N·m; 22–26 N·m; 90°"),
    ("condition", "condition of the threads", "dry, oiled, anti-seize"),
    ("title", "title of the document", "own sheet"),
    ("reference", "page, sheet or table", "page 12"),
    ("entered_by", "your name", "A. Clerk"),
)


@dataclass(frozen=True, slots=True, kw_only=True)
class Starter:
    """What is known of a new group.

    Args:
        id: the word for commands; made from the name where it is empty.
        assembly, name, thread, grade, condition: as in a group.
        bolts: how many, or how they stand, see `read_arrangement`.
        values: the values in their order, each a stage or a chain of them.
        title, reference, entered_by: of the source.
        kind: `shop`, `published` or `invented`.
    """

    name: str
    values: tuple[str, ...]
    id: str = ""
    assembly: str = ""
    thread: str = ""
    grade: str = ""
    bolts: str = ""
    condition: str = ""
    title: str = ""
    reference: str = ""
    entered_by: str = ""
    kind: str = "shop"


def starter_text(starter: Starter) -> str | Refusal:
    """The file, or the first answer that cannot be read."""
    arranged = read_arrangement(starter.bolts)
    if isinstance(arranged, Refusal):
        return arranged
    stages = _stages(starter.values)
    if isinstance(stages, Refusal):
        return stages
    refusal = _bolt(starter)
    return refusal or "\n".join(_lines(starter, arranged, stages)) + "\n"


def _stages(values: tuple[str, ...]) -> tuple[tuple[str, str], ...] | Refusal:
    if not values:
        message = "a group needs a value; one such as 24 N·m or 30 N·m + 90° is expected"
        return Refusal(text="", message=message, readings=("24 N·m", "30 N·m + 90°"))
    stages: list[tuple[str, str]] = []
    for value in values:
        term = read_term(value)
        if isinstance(term, Refusal):
            return term
        stages.extend(stage_values(term))
    return tuple(stages)


def _bolt(starter: Starter) -> Refusal | None:
    thread = read_thread(starter.thread) if starter.thread else None
    if isinstance(thread, Refusal):
        return thread
    grade = read_grade(starter.grade, thread) if starter.grade and isinstance(thread, Thread) else None
    return grade if isinstance(grade, Refusal) else None


def identity(name: str) -> str:
    """An id from the name of a group.

    >>> identity("Front cover, to block")
    'front-cover-to-block'
    """
    return re.sub(r"[^\w]+", "-", name.casefold()).strip("-_")[:60].strip("-") or "group"


def _lines(starter: Starter, arranged: Arrangement, stages: tuple[tuple[str, str], ...]) -> Iterator[str]:
    yield from (
        "# Hold every line against the page. `torqref check FILE` tells what is wrong or missing;",
        "# `torqref check --second FILE` lets another person type the values without seeing them.",
        "format = 1",
        _key("assembly", starter.assembly, "vehicle or machine, engine"),
        "",
        "[source]                # the document, so that the next one finds the page again",
        f"kind = {quoted(starter.kind)}           # published, shop or invented",
        _key("title", starter.title, "title of the document"),
        _key("reference", starter.reference, "page, sheet or table"),
        _key("entered_by", starter.entered_by, "who typed the values"),
        "",
        "[[group]]",
        f"id = {quoted(starter.id or identity(starter.name))}",
        f"name = {quoted(starter.name)}",
        '# aliases = ["other words people look for"]',
        _key("thread", starter.thread, "M8x1.25"),
        _key("class", starter.grade, "8.8"),
        '# socket = "13 mm hex"',
        _key("condition", starter.condition, "dry, oiled, anti-seize and on what: as the page says"),
        '# one_time = "bolts"    # what may be used once only',
        "# uses = 5              # how often a set may be tightened in all",
        '# cautions = ["Let it cool down first"]',
        '# parent = { material = "aluminium", engagement = "16 mm" }',
    )
    yield from _picture(arranged)
    for kind, text in stages:
        yield from ("", "[[group.stage]]", f"{kind} = {quoted(text)}")
        if kind in ("torque", "angle"):
            yield '# window = "…"          # limits, where the page gives them apart from the value'


def _key(name: str, value: str, example: str) -> str:
    """A key with its value, or as a comment with what belongs there."""
    return f"{name} = {quoted(value)}" if value else f"# {name} = {quoted(example)}"


def _picture(arranged: Arrangement) -> Iterator[str]:
    """The pattern as it was told, and a diagram of it that waits for the numbers of the page."""
    yield ""
    if len(arranged.layout.positions) == 1 or arranged.toml.startswith("diagram"):
        yield arranged.toml
        return
    yield "# Until the diagram below is filled in, the order is generic and not the manufacturer's."
    yield arranged.toml
    yield "# Take the line above away and the signs # below, and write the numbers as the page has them:"
    yield "# numbers are bolts in the order of tightening, other words are landmarks."
    yield '# seen_from = "above"'
    yield "# diagram = '''"
    yield from (f"#   {line}".rstrip() for line in ("FRONT", *_drawn(arranged.layout)))
    yield "# '''"


def _drawn(layout: Layout) -> tuple[str, ...]:
    if layout.basis == "count":
        return ("  ".join(str(label) for label in layout.labels),)
    lines = draw(layout, {}, width=60, height=14).lines
    return tuple(line.rstrip() for line in lines if line.strip() or layout.basis == "circle")
