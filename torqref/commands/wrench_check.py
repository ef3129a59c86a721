"""`torqref wrench-check`: what a wrench should read under a weight at a measured arm. No calibration.

Without a wrench it tells what a weight on a bar gives, or where it has to be.
"""

from __future__ import annotations

import json
import os
from argparse import Namespace
from datetime import UTC, datetime
from fractions import Fraction
from typing import TYPE_CHECKING

from torqref.commands.arguments import Parser, add_shared
from torqref.commands.console import Console
from torqref.document.refusal import Refusal

if TYPE_CHECKING:
    from torqref.quantity.term import Length, Torque
    from torqref.wrench.bar import Bar
    from torqref.wrench.rack import Wrench
    from torqref.wrench.weight import Weight, WeightCheck

RECORD_FILE = "wrench-checks.jsonl"
_EPILOG = """\
Clamp the square so that the handle lies level; the arm is the level distance from its centre to the string.
  torqref wrench-check W2 --weight "10 kg" --arm 290mm --reading "28.5 N·m" --rack demo/wrenches.toml
Without a wrench, for a weight on a bar: what it gives at an arm, or the arm for a torque. An estimate.
  torqref wrench-check --weight "150 lb" --torque "300 ft-lb"
"""
_USAGE = 'name a wrench and its --arm, or give one of --arm and --torque, such as --torque "300 ft-lb".'


def add(parser: Parser) -> None:
    """Add the arguments of the command."""
    parser.epilog = _EPILOG
    parser.add_argument(
        "wrench", metavar="WRENCH", nargs="?", default="", help="a wrench of the rack; none for a bar"
    )
    parser.add_argument("--weight", required=True, metavar="W", help="what hangs on it: 10 kg, 25 lb, 98 N")
    parser.add_argument("--arm", default="", metavar="L", help="from the centre of the square to the string")
    parser.add_argument("--torque", default="", metavar="T", help="without a wrench: the arm for it")
    parser.add_argument("--reading", default="", metavar="T", help="what the wrench showed, or clicked at")
    parser.add_argument("--anticlockwise", action="store_true", help="pulled anticlockwise")
    parser.add_argument("--by", default="", metavar="NAME", help="who checks, for the record")
    add_shared(parser, "rack", "records")


def run(options: Namespace, console: Console) -> int:
    """Answer with the expected reading; 0 inside or not yet read, 1 outside or refused."""
    if _is_misused(options):
        return console.misuse(f"torqref wrench-check: {_USAGE}")
    if not options.wrench:
        return _on_a_bar(options, console)
    wrench = _wrench(options, console)
    if wrench is None:
        return 1
    asked = _asked(options)
    if isinstance(asked, Refusal):
        return console.refuse(asked)
    weight, arm, reading = asked
    check = _check(options, wrench, weight, arm, reading)
    if isinstance(check, Refusal):
        return console.refuse(check)
    read = _read(reading, check)
    verdict = "" if read is None else check.judge(read)
    payload = _payload(check, weight, arm, read, verdict)
    if options.records and (trouble := _record(options, wrench, payload)):
        return console.deny(trouble)
    if console.as_json:
        console.answer(payload)
    else:
        _show(check, read, verdict, console)
    return 1 if verdict == "outside" else 0


def _is_misused(options: Namespace) -> bool:
    """A wrench is checked at an arm; without one, either the arm or the torque is given."""
    if options.wrench:
        return not options.arm or bool(options.torque)
    return bool(options.arm) == bool(options.torque)


def _on_a_bar(options: Namespace, console: Console) -> int:
    """A weight on a bar: what it gives, or where it has to be."""
    from torqref.wrench.bar import NOTES

    bar = _bar(options)
    if isinstance(bar, Refusal):
        return console.refuse(bar)
    if console.as_json:
        console.answer({
            "estimate": True, "weight": bar.weight.text, "arm": float(bar.arm), "arm_unit": bar.arm_unit,
            "torque": float(bar.torque), "unit": bar.unit, "notes": NOTES,
        })  # fmt: skip
    else:
        for line in (bar.sentence(), *NOTES):
            console.say(line)
    return 0


def _bar(options: Namespace) -> Bar | Refusal:
    from torqref.quantity.reading import read_torque
    from torqref.wrench.bar import bar_for, bar_with
    from torqref.wrench.fitting import read_handle
    from torqref.wrench.weight import read_weight

    weight = read_weight(options.weight)
    if isinstance(weight, Refusal):
        return weight
    if options.torque:
        torque = read_torque(options.torque)
        return torque if isinstance(torque, Refusal) else bar_for(weight, torque)
    arm = read_handle(options.arm)
    return arm if isinstance(arm, Refusal) else bar_with(weight, arm)


def _wrench(options: Namespace, console: Console) -> Wrench | None:
    from torqref.commands.desk import rack_of

    rack = rack_of(options, console)
    if rack is None:
        return None
    found = rack.wrench(options.wrench)
    if found is None:
        console.refuse(rack.lacking(options.wrench))
    return found


def _asked(options: Namespace) -> tuple[Weight, Length, Torque | None] | Refusal:
    """What was typed, read; or the first thing that was not understood."""
    from torqref.quantity.reading import read_torque
    from torqref.wrench.fitting import read_handle
    from torqref.wrench.weight import read_weight

    weight, arm = read_weight(options.weight), read_handle(options.arm)
    reading = read_torque(options.reading) if options.reading else None
    if isinstance(weight, Refusal):
        return weight
    if isinstance(arm, Refusal):
        return arm
    return reading if isinstance(reading, Refusal) else (weight, arm, reading)


def _check(
    options: Namespace, wrench: Wrench, weight: Weight, arm: Length, reading: Torque | None
) -> WeightCheck | Refusal:
    """The check on the scale that was read."""
    from torqref.wrench.weight import check_with

    direction = "anticlockwise" if options.anticlockwise else "clockwise"
    return check_with(wrench, weight, arm, unit=reading.unit if reading else None, direction=direction)


def _read(reading: Torque | None, check: WeightCheck) -> Fraction | None:
    """The reading in the unit of the check."""
    from torqref.quantity.conversion import convert

    return None if reading is None else convert(reading.aim, reading.unit, check.unit)


def _payload(
    check: WeightCheck, weight: Weight, arm: Length, read: Fraction | None, verdict: str
) -> dict[str, object]:
    return {
        "kind": "check, not a calibration",
        "wrench": check.wrench.id,
        "serial": check.wrench.serial,
        "weight": weight.text,
        "arm": arm.text,
        "unit": check.unit,
        "expected": float(check.expected),
        "low": float(check.low),
        "high": float(check.high),
        "reading": None if read is None else float(read),
        "verdict": verdict or None,
        "notes": check.notes,
    }


def _show(check: WeightCheck, read: Fraction | None, verdict: str, console: Console) -> None:
    console.say(check.sentence())
    if read is not None:
        console.say(check.result(read))
    for note in check.notes:
        console.say(note)


def _record(options: Namespace, wrench: Wrench, payload: dict[str, object]) -> str:
    """Add the check as one line to the file of checks; returns what went wrong, or nothing."""
    line = {
        "time": datetime.now(UTC).isoformat(timespec="seconds"),
        "by": options.by,
        **{name: value for name, value in payload.items() if name != "notes"},
    }
    try:
        options.records.mkdir(parents=True, exist_ok=True)
        with (options.records / RECORD_FILE).open("a", encoding="utf-8") as file:
            file.write(json.dumps(line, ensure_ascii=False) + "\n")
            file.flush()
            os.fsync(file.fileno())
    except OSError as error:
        return f"the check of {wrench.id} could not be recorded: {error.strerror}."
    return ""
