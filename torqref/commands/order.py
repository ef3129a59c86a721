"""`torqref order`: a generic tightening order for a circle or rows, or an audit of a drawn one."""

from __future__ import annotations

import re
import shutil
from argparse import Namespace
from collections.abc import Sequence
from dataclasses import dataclass
from pathlib import Path
from typing import TYPE_CHECKING

from torqref.commands.arguments import Parser, add_shared
from torqref.commands.console import Console
from torqref.document.escape import escape
from torqref.document.problem import Problem

if TYPE_CHECKING:
    from torqref.pattern.fault import Faults
    from torqref.pattern.layout import Layout, Order

_EPILOG = """\
  torqref order circle 8            the usual cross, numbered clockwise from 12 o'clock
  torqref order circle 16 --pairs   for two people, each pair pulled together
  torqref order circle 48 --groups 4
  torqref order rows 2x5            from the centre outward; rows of unequal length: rows 3,4,3
  torqref order sheet.txt           a diagram whose numbers are the order: what is unusual about it?
  torqref order library.toml GROUP  the order of a group
"""
_NUMBER = re.compile(r"([-\N{MINUS SIGN}]?)([0-9]{1,9})")
_GRID = re.compile(r"([0-9]{1,9})\s*[xX*\N{MULTIPLICATION SIGN}]\s*([0-9]{1,9})")
_COUNTS = re.compile(r"[0-9]{1,9}(?:[,/][0-9]{1,9})+")
_WIDEST = 100
_NARROWEST = 30
_HEIGHTS = (24, 60, 130)
_LIMIT = "Generic, not the manufacturer's: service information comes first."
_PLOT_TITLE = "Pulled to one side after each step (1.0: one bolt with none opposite)"


def add(parser: Parser) -> None:
    """Add the arguments of the command."""
    parser.epilog = _EPILOG
    parser.add_argument("what", metavar="circle|rows|FILE", help="a shape, or a file")
    parser.add_argument("size", metavar="N|RxC|GROUP", nargs="?", help="bolts, rows by columns, or a group")
    parser.add_argument("--pairs", action="store_true", help="opposite bolts pulled together (even circle)")
    parser.add_argument(
        "--groups", metavar="SIZE", default="", help="neighbours worked as one bolt (large circle)"
    )
    add_shared(parser)


def run(options: Namespace, console: Console) -> int:
    """Answer with the order; 0 done, 1 refused or errors found, 2 wrong usage."""
    from torqref.document.toml import read_file

    if options.what in _SHAPES:
        return _shape(options, console)
    path, is_library = Path(options.what), options.what.endswith(".toml")
    if options.pairs or options.groups or (options.size is not None and not is_library):
        return console.misuse(
            f'torqref order: "{escape(options.what)}" is neither circle nor rows, and a FILE stands alone.'
        )
    data = read_file(path)
    if isinstance(data, Problem):
        return console.deny(f"{data.sentence()} Known shapes are circle and rows.")
    return _library(path, options.size or "", console) if is_library else _file(path, data, console)


@dataclass(frozen=True, slots=True, kw_only=True)
class _Answer:
    """What is told: the order asked for, the usual one beside it if it is another, and what is wrong."""

    layout: Layout
    order: Order
    usual: Order | None
    problems: tuple[Problem, ...]


def _shape(options: Namespace, console: Console) -> int:
    """A circle or rows of the command line."""
    if options.size is None:
        return console.misuse(_SHAPES[options.what][1])
    layout = _SHAPES[options.what][0](options.size)
    if isinstance(layout, str):
        return console.misuse(layout)
    if isinstance(layout, tuple):
        return console.deny(" ".join(f"{fault.message}. {fault.mend}" for fault in layout))
    order = _generic(layout, options)
    if isinstance(order, str):
        return console.misuse(f"torqref order: {order}")
    return _tell(_Answer(layout=layout, order=order, usual=None, problems=()), console)


def _circle(size: str) -> Layout | Faults | str:
    from torqref.pattern.shape import circle

    read = _NUMBER.fullmatch(size.strip())
    if not read:
        return f'torqref order circle: "{escape(size)}" is no number of bolts. {_SHAPES["circle"][1]}'
    return circle(-int(read[2]) if read[1] else int(read[2]))


def _rows(size: str) -> Layout | Faults | str:
    from torqref.pattern.fault import refused
    from torqref.pattern.shape import rows

    grid = _GRID.fullmatch(size.strip())
    if grid and int(grid[1]) == 0:
        return refused("no row at all is no pattern; one row is expected at least", "Write for example 2x5.")
    if grid and max(int(grid[1]), int(grid[2])) > _LARGEST_SIDE:
        return refused(f"rows of {grid[1]} by {grid[2]} bolts are too many", "At most 200 bolts are walked.")
    if grid:
        return rows([int(grid[2])] * int(grid[1]))
    if _COUNTS.fullmatch(size.strip()):
        return rows([int(count) for count in size.replace("/", ",").split(",")])
    return f'torqref order rows: "{escape(size)}" does not say rows by columns. {_SHAPES["rows"][1]}'


_LARGEST_SIDE = 200
_SHAPES = {
    "circle": (_circle, "Write a whole number: torqref order circle 8"),
    "rows": (_rows, "Write for example: torqref order rows 2x5"),
}


def _generic(layout: Layout, options: Namespace) -> Order | str:
    """The generic order as asked for, or what does not go together."""
    from torqref.pattern.order import generic_order, grouped, star

    bolts = len(layout.positions)
    if not options.pairs and not options.groups:
        return generic_order(layout)
    if layout.basis != "circle" or (options.pairs and options.groups):
        return "--pairs or --groups go with a circle, one of them at a time."
    if options.pairs:
        return star(bolts, pairs=True) if bolts % 2 == 0 else "--pairs needs an even number of bolts."
    size = _NUMBER.fullmatch(options.groups)
    if not size or size[1] or not 2 <= int(size[2]) <= bolts // 4:
        return f"--groups is a whole number from 2 to {max(2, bolts // 4)} on a circle of {bolts}."
    return grouped(bolts, int(size[2]))


def _file(path: Path, data: bytes, console: Console) -> int:
    """A diagram in a text file, its numbers taken as the order of visiting."""
    from torqref.pattern.audit import audit
    from torqref.pattern.diagram import read_diagram
    from torqref.pattern.order import generic_order, listed

    name = escape(str(path))
    try:
        text = data.decode("utf-8-sig").replace("\r\n", "\n")
    except UnicodeDecodeError:
        return console.deny(f"{name}: the file is not UTF-8 text. Save it as UTF-8.")
    layout = read_diagram(text)
    if isinstance(layout, tuple):
        return _unread(_placed(layout, name), console)
    order = listed(layout)
    problems = _placed(audit(order, layout), name)
    return _tell(_Answer(layout=layout, order=order, usual=generic_order(layout), problems=problems), console)


def _library(path: Path, identity: str, console: Console) -> int:
    """The order of a group of a library file, with the usual one of its picture beside it."""
    from torqref.library.file import read_library_file
    from torqref.library.remark import Lines
    from torqref.pattern.audit import audit
    from torqref.pattern.order import generic_order

    file = read_library_file(path)
    groups = {group.id: group for group in file.groups}
    if not groups:
        return _unread(file.problems, console)
    if identity not in groups and (identity or len(groups) > 1):
        found = f'no group "{escape(identity)}" in {file.file}' if identity else f"{file.file} holds several"
        return console.deny(f"{found}. Write torqref order FILE and one of: {', '.join(groups)}.")
    group = groups.get(identity, next(iter(groups.values())))
    key, lines = f"{group.key}.order", Lines()
    problems = tuple(
        fault.problem(file=file.file, line=lines.line(group.file, key), key=key)
        for fault in audit(group.order, group.layout)
    )
    usual = generic_order(group.layout)
    return _tell(_Answer(layout=group.layout, order=group.order, usual=usual, problems=problems), console)


def _placed(faults: Faults, file: str) -> tuple[Problem, ...]:
    return tuple(fault.problem(file=file) for fault in faults)


def _unread(problems: Sequence[Problem], console: Console) -> int:
    """A diagram that cannot be read has no order, only problems."""
    if console.as_json:
        console.answer({"order": (), "basis": "", "generic": False, "problems": _values(problems)})
    else:
        console.problems(problems)
    return 1


def _values(problems: Sequence[Problem]) -> list[dict[str, object]]:
    from dataclasses import asdict

    return [asdict(problem) for problem in problems]


def _tell(answer: _Answer, console: Console) -> int:
    if console.as_json:
        console.answer(
            {
                "order": answer.order.labels,
                "basis": answer.order.basis,
                "generic": answer.order.generic,
                "problems": _values(answer.problems),
            }
        )
    else:
        width = max(_NARROWEST, min(_WIDEST, shutil.get_terminal_size((80, 24)).columns))
        for line in _page(answer, width):
            console.say(line)
        console.problems(answer.problems)
    return 1 if any(problem.severity == "error" for problem in answer.problems) else 0


def _page(answer: _Answer, width: int) -> list[str]:
    """The answer for a reader: picture, order, plot."""
    from torqref.pattern.imbalance import imbalance, plot

    given, usual = answer.order, answer.usual
    lines = [*_wrapped(_heading(answer.layout), width), "", *_picture(answer.layout, given, width), ""]
    lines += _listed("order", given, width)
    lines += _wrapped(_sentence(given.basis), width)
    if usual:
        lines += ["", *_listed("usual", usual, width), *_wrapped(_sentence(usual.basis), width)]
    if answer.layout.basis != "count" and len(answer.layout.positions) > 1:
        compared = imbalance(usual, answer.layout) if usual else ()
        key = "# this order   o the usual one   8 both" if usual else ""
        lines += ["", *_wrapped(_PLOT_TITLE, width), *_wrapped(key, width)]
        lines += plot(imbalance(given, answer.layout), compared, width=width)
    return [*lines, "", *_wrapped(_LIMIT, width)] if usual or given.generic else lines


def _heading(layout: Layout) -> str:
    bolts = len(layout.positions)
    if layout.basis == "circle":
        return f"Circle of {bolts}, places counted clockwise from 12 o'clock; each shows its turn."
    if layout.basis == "rows":
        return f"Rows, {bolts} bolts counted from the top left; each shows its turn."
    return f"As drawn, {bolts} bolts; the numbers are the order."


def _picture(layout: Layout, order: Order, width: int) -> tuple[str, ...]:
    """The layout with the turn of each bolt in its place, the first one in brackets."""
    from torqref.pattern.drawing import draw

    turns = {label: number for number, visit in enumerate(order.visits, start=1) for label in visit}
    marks = {label: f"[{turn}]" if turn == 1 else str(turn) for label, turn in turns.items()}
    if layout.basis == "diagram":
        marks = {label: f"[{label}]" for label in order.visits[0]}
    for height in _HEIGHTS:
        drawing = draw(layout, marks, width=width, height=height)
        if len(drawing.spots) == len(layout.positions):
            break
    return drawing.lines


def _listed(name: str, order: Order, width: int) -> list[str]:
    text = order.text
    return _wrapped(f"{name}  {text}", width, indent=" " * (len(name) + 2))


def _sentence(basis: str) -> str:
    return f"{basis[:1].upper()}{basis[1:]}."


def _wrapped(text: str, width: int, indent: str = "") -> list[str]:
    from textwrap import wrap

    return wrap(text, width, subsequent_indent=indent, break_on_hyphens=False)
