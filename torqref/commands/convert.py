"""`torqref convert`: what a text says, in the units a wrench may have, and whether it fits a thread."""

from __future__ import annotations

import re
from argparse import Namespace
from dataclasses import replace
from pathlib import Path
from typing import TYPE_CHECKING

from torqref.commands.arguments import Parser, add_shared
from torqref.commands.chart import WORDS, run_chart
from torqref.commands.console import Console
from torqref.document.escape import escape
from torqref.document.refusal import Refusal

if TYPE_CHECKING:
    from torqref.fastener.plausibility import Plausibility
    from torqref.quantity.term import Angle, Stage, Term, Torque

_USUAL = ("N·m", "ft-lb", "in-lb", "kgf·m")
# No value looks like this: it begins with a letter and has no blanks.
_ID = re.compile(r"[A-Za-z][\w.]*(?:-[\w.]+)+")
# `convert "25 N·m" to ft-lb`, as one would say it.
_TO = frozenset(("to", "in", "into", "as", "="))
_NO_VALUE = 'torqref convert: no value is named; write it as printed, such as torqref convert "24 N·m" ft-lb.'
_CHART_USAGE = "torqref convert: --html belongs to --chart UNIT OTHER LOW HIGH."
_EPILOG = """\
Pounds, kilograms and ounces are forces here. Put the value in quotes, as the page prints it.
  torqref convert "22–26 N·m"
  torqref convert "30 N·m + 90° + 90°" ft-lb
  torqref convert ac43-tension-1-4-28        the values of a group of the library
  torqref convert "96 ft-lb" --thread M6 --class 8.8
  torqref convert --chart in-lb N·m 20 200 --html chart.html
Shown numbers are rounded so that no limit is passed; the printed value is the one that counts.
"""


def add(parser: Parser) -> None:
    """Add the arguments of the command."""
    parser.epilog = _EPILOG
    parser.add_argument(
        "text",
        metavar="TEXT",
        nargs="?",
        help='the value as printed, "22–26 N·m (16–19 ft-lb)", or the id of a group',
    )
    parser.add_argument("units", metavar="UNIT", nargs="*", help="units to show, in any spelling")
    parser.add_argument("--thread", default="", metavar="T", help="judge the value for this thread")
    parser.add_argument("--class", dest="grade", default="", metavar="C", help="property class or grade")
    parser.add_argument("--purpose", metavar="P", help="clamp, seal, adjust, drive or sensor")
    parser.add_argument(
        "--chart", nargs=4, metavar=WORDS, help="a chart of two units over a range, instead of a value"
    )
    parser.add_argument("--html", type=Path, metavar="FILE", help="write the chart as a page to print")
    add_shared(parser, "specs")


def run(options: Namespace, console: Console) -> int:
    """Answer with the value in other units; 0 done, 1 refused or cannot be right, 2 wrong usage."""
    if options.chart is not None:
        return run_chart(options, console)
    if options.text is None or options.html is not None:
        return console.misuse(_CHART_USAGE if options.html else _NO_VALUE)
    if not options.thread and (options.grade or options.purpose is not None):
        name = "--class" if options.grade else "--purpose"
        return console.misuse(f"torqref convert: {name} needs --thread, such as --thread M8 --class 8.8.")
    term = _term(options)
    if isinstance(term, Refusal):
        return console.refuse(term)
    units = _units(options.units)
    if isinstance(units, Refusal):
        return console.refuse(units)
    verdict = _verdict(options, term)
    if isinstance(verdict, Refusal):
        return console.refuse(verdict)
    term = _with_notes_on_thread(term, options)
    if console.as_json:
        console.answer(_payload(term, units, verdict))
    else:
        _say(console, term, units, verdict)
    return 1 if verdict and verdict.state == "cannot-be-right" else 0


def _term(options: Namespace) -> Term | Refusal:
    from torqref.quantity.reading import read_term

    term = read_term(options.text)
    if isinstance(term, Refusal) and _ID.fullmatch(options.text):
        term = _of_group(options) or _no_group(term, options)
    if not isinstance(term, Refusal) or not options.units:
        return term
    together = " ".join((options.text, *options.units))
    if isinstance(read_term(together), Refusal):
        return term
    message = f"{term.message}; put the whole value in quotes"
    return Refusal(text=term.text, message=message, readings=(f'"{together}"',), caret=term.caret)


def _of_group(options: Namespace) -> Term | None:
    """The values of a group of the library, where the text is the id of one."""
    from torqref.commands.desk import library_folders
    from torqref.library.shelf import find_group
    from torqref.quantity.term import Term

    group, _ = find_group(options.text, library_folders(options))
    stages = [stage.torque or stage.angle for stage in group.stages if stage.turns] if group else []
    found = tuple(stage for stage in stages if stage is not None)
    return Term(text=group.name, stages=found) if group and found else None


def _no_group(refused: Refusal, options: Namespace) -> Refusal:
    """`exaust-manifold`: neither a value nor the id of a group, but near one."""
    from torqref.commands.desk import shelf_of
    from torqref.document.nearest import nearest

    near = None if refused.readings else nearest(options.text, shelf_of(options).groups)
    if near is None:
        return refused
    message = f'"{escape(options.text)}" is no value and no group of the library'
    return Refusal(text=options.text, message=message, readings=(near,))


def _units(words: list[str]) -> tuple[str, ...] | Refusal:
    from torqref.quantity.reading import read_unit

    if len(words) > 1 and words[0].casefold() in _TO:
        words = words[1:]
    found = [read_unit(word) for word in words]
    refused = next((unit for unit in found if isinstance(unit, Refusal)), None)
    symbols = tuple(dict.fromkeys(unit for unit in found if isinstance(unit, str)))
    return refused or symbols or _USUAL


def _verdict(options: Namespace, term: Term) -> Plausibility | Refusal | None:
    """How the last torque of the text fits the thread; None where none is asked for."""
    torques = [stage for stage in term.stages if stage.kind == "torque"]
    if not options.thread or not torques:
        return None
    from torqref.fastener.grade import read_grade
    from torqref.fastener.plausibility import PURPOSES, judge
    from torqref.fastener.thread import read_thread

    purpose = options.purpose or ""
    if purpose and purpose not in PURPOSES:
        message = f'"{escape(purpose)}" is no purpose; one of these is expected'
        return Refusal(text=purpose, message=message, readings=PURPOSES)
    thread = read_thread(options.thread)
    if isinstance(thread, Refusal):
        return thread
    grade = read_grade(options.grade, thread) if options.grade else None
    if isinstance(grade, Refusal):
        return grade
    turns = [stage.kind for stage in term.stages[term.stages.index(torques[-1]) :]]
    return judge(torques[-1], thread, grade, purpose=purpose, then_angle="angle" in turns)


def _with_notes_on_thread(term: Term, options: Namespace) -> Term:
    """Whoever writes an unusual pitch hears of it: the value is judged for that thread."""
    if not options.thread:
        return term
    from torqref.fastener.thread import read_thread

    thread = read_thread(options.thread)
    return term if isinstance(thread, Refusal) else replace(term, notes=(*term.notes, *thread.notes))


def _payload(term: Term, units: tuple[str, ...], verdict: Plausibility | None) -> dict[str, object]:
    from torqref.quantity.showing import describe

    payload: dict[str, object] = {
        "text": term.text,
        "reading": describe(term),
        "stages": [_stage(stage, units) for stage in term.stages],
        "notes": term.notes,
    }
    if verdict:
        payload["plausibility"] = _judged(verdict)
    return payload


def _stage(stage: Stage, units: tuple[str, ...]) -> dict[str, object]:
    if stage.kind == "torque":
        return _torque(stage, units)
    return _angle(stage) if stage.kind == "angle" else {"kind": "hand"}


def _torque(torque: Torque, units: tuple[str, ...]) -> dict[str, object]:
    from torqref.quantity.showing import converted

    shown = {unit: converted(torque, unit) for unit in units}
    return {
        "kind": "torque",
        "low": torque.low,
        "target": torque.target,
        "high": torque.high,
        "unit": torque.unit,
        "converted": {
            unit: {"low": value.low, "target": value.target, "high": value.high, "shown": value.shown}
            for unit, value in shown.items()
        },
    }


def _angle(angle: Angle) -> dict[str, object]:
    limits = {} if angle.low is None and angle.high is None else {"low": angle.low, "high": angle.high}
    value = {} if angle.degrees is None else {"degrees": angle.degrees}
    return {"kind": "angle", **value, **limits}


def _judged(verdict: Plausibility) -> dict[str, object]:
    share = None
    if verdict.share_low is not None and verdict.share_high is not None:
        share = {"low": verdict.share_low, "high": verdict.share_high}
    return {"state": verdict.state, "share_of_proof": share, "likely_slip": verdict.likely_slip}


def _say(console: Console, term: Term, units: tuple[str, ...], verdict: Plausibility | None) -> None:
    from torqref.quantity.showing import describe

    for number, stage in enumerate(term.stages, start=1):
        lead = f"{number}  " if len(term.stages) > 1 else ""
        for line in _lines(stage, units):
            console.say(f"{lead}{line}")
            lead = " " * len(lead)
    console.say(describe(term))
    for note in term.notes:
        console.say(f"Note: {note}")
    if verdict:
        console.say(verdict.sentence)


def _lines(stage: Stage, units: tuple[str, ...]) -> list[str]:
    """The stage as printed, and under it what it is in other units."""
    from torqref.quantity.showing import converted, show_angle, show_torque
    from torqref.quantity.turn import turn_in_words

    if stage.kind == "torque":
        others = [unit for unit in units if unit != stage.unit]
        return [show_torque(stage), *(f"  = {converted(stage, unit).shown}" for unit in others)]
    if stage.kind == "angle":
        words = turn_in_words(stage.aim) if stage.degrees is not None else ""
        return [show_angle(stage), *([f"  = {words}"] if words else [])]
    return [stage.text]
