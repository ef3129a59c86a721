"""`torqref crowfoot`: what to set when an adapter changes the lever, or what arrived when it was not set."""

from __future__ import annotations

from argparse import Action, ArgumentParser, Namespace
from collections.abc import Sequence
from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

from torqref.commands.arguments import Parser, add_shared
from torqref.commands.console import Console
from torqref.document.refusal import Refusal

if TYPE_CHECKING:
    from torqref.quantity.term import Length, Torque
    from torqref.wrench.adapter import Part
    from torqref.wrench.rack import Rack, Wrench
    from torqref.wrench.setting import Setting

_UNITS = ("N·m", "ft-lb", "in-lb", "kgf·m", "kgf·cm")
_EPILOG = """\
The angle counts from straight out along the handle: 0 away from your hand, 90 across, 180 back towards it.
Several --offset, each followed by its --angle, are pieces in a row.
  torqref crowfoot "40 N·m" --offset 38mm --length 300mm
  torqref crowfoot "400 ft-lb" --offset "4:1 90 %" --length 18in      a multiplier and what it passes on
  torqref crowfoot "28 N·m" --adapter flare-17 --wrench W2 --rack demo/wrenches.toml
"""


class _Pair(Action):
    """Collects offsets and angles in the order they are written, each angle with its offset."""

    def __call__(
        self,
        parser: ArgumentParser,
        namespace: Namespace,
        values: str | Sequence[object] | None,
        option_string: str | None = None,
    ) -> None:
        """Put the value into the last pair that has room for it, or open a new pair."""
        pairs: list[dict[str, str]] = list(namespace.pairs)
        name = str(option_string).lstrip("-")
        if not pairs or name in pairs[-1]:
            pairs.append({})
        pairs[-1] = {**pairs[-1], name: str(values)}
        namespace.pairs = pairs


def add(parser: Parser) -> None:
    """Add the arguments of the command."""
    parser.epilog = _EPILOG
    parser.add_argument("torque", metavar="TORQUE", help='the value as printed, "20–25 N·m"')
    parser.add_argument(
        "--offset", action=_Pair, dest="pairs", default=[], metavar="E", help="square to fastener"
    )
    parser.add_argument("--angle", action=_Pair, dest="pairs", metavar="A", help="degrees from straight out")
    parser.add_argument("--adapter", default="", metavar="ID", help="an adapter of the rack, ID or ID@ANGLE")
    parser.add_argument("--length", default="", metavar="L", help="of the wrench: square to grip mark")
    parser.add_argument("--wrench", default="", metavar="ID", help="a wrench of the rack")
    parser.add_argument("--drag", default="", metavar="TORQUE", help="measured drag of a locking nut")
    parser.add_argument("--unit", default="", metavar="U", help="unit to show")
    parser.add_argument("--anticlockwise", action="store_true", help="the fastener tightens anticlockwise")
    parser.add_argument(
        "--achieved", action="store_true", help="TORQUE is what the wrench was set to: what arrived?"
    )
    add_shared(parser, "rack")


def run(options: Namespace, console: Console) -> int:
    """Answer with the setting; 0 done, 1 refused, 2 wrong usage."""
    if wrong := _misuse(options):
        return console.misuse(f"torqref crowfoot: {wrong}")
    rack = _rack(options, console)
    if rack is None:
        return 1
    wrench = rack.wrench(options.wrench) if options.wrench else None
    if options.wrench and wrench is None:
        return console.refuse(rack.lacking(options.wrench))
    asked = _asked(options, rack)
    if isinstance(asked, Refusal):
        return console.refuse(asked)
    setting = _work_out(options, asked, wrench)
    if isinstance(setting, Refusal):
        return console.refuse(setting)
    setting = replace(setting, notes=(*setting.notes, *_overdue(wrench)))
    if console.as_json:
        console.answer(_payload(options, asked.torque, setting))
    else:
        _show(options, setting, wrench, console)
    return 0


def _overdue(wrench: Wrench | None) -> tuple[str, ...]:
    """Whoever sets a wrench past its date hears of it here, too."""
    if wrench is None or wrench.calibration_due is None:
        return ()
    from torqref.commands.desk import clock
    from torqref.wrench.choice import ago

    days = wrench.days_overdue(clock().date())
    return (f"{wrench.called}: its calibration ran out {ago(days)}.",) if days else ()


def _misuse(options: Namespace) -> str:
    """What is wrong with the command line itself, or nothing."""
    if not options.pairs and not options.adapter:
        return "give --offset E with its unit, or --adapter ID from the rack."
    if any("offset" not in pair for pair in options.pairs):
        return "every --angle belongs to an --offset: --offset 38mm --angle 45."
    if not options.length and not options.wrench:
        return "give the length of the wrench (--length 300mm, square to grip mark), or --wrench ID."
    return ""


def _rack(options: Namespace, console: Console) -> Rack | None:
    """The rack, read only where something of it is named; None where it cannot be read, which was told."""
    if not options.wrench and not options.adapter:
        from torqref.wrench.rack import Rack

        return Rack()
    from torqref.commands.desk import rack_of

    return rack_of(options, console)


@dataclass(frozen=True, slots=True, kw_only=True)
class _Asked:
    """Everything that was typed, read."""

    torque: Torque
    parts: tuple[Part, ...]
    length: Length | None
    drag: Torque | None
    unit: str | None


def _asked(options: Namespace, rack: Rack) -> _Asked | Refusal:
    """What was typed, read; or the first thing that was not understood."""
    from torqref.quantity.reading import read_torque
    from torqref.wrench.fitting import read_handle

    torque, parts = read_torque(options.torque), _parts(options, rack)
    length = read_handle(options.length) if options.length else None
    drag = read_torque(options.drag) if options.drag else None
    # A unit alone is read through a torque of one: the spellings are the same.
    unit = read_torque(f"1 {options.unit}") if options.unit else None
    if isinstance(torque, Refusal):
        return torque
    if isinstance(parts, Refusal):
        return parts
    if isinstance(length, Refusal):
        return length
    if isinstance(drag, Refusal):
        return drag
    if isinstance(unit, Refusal):
        return Refusal(text=options.unit, message=f'"{options.unit}" is no unit of torque', readings=_UNITS)
    return _Asked(torque=torque, parts=parts, length=length, drag=drag, unit=unit.unit if unit else None)


def _parts(options: Namespace, rack: Rack) -> tuple[Part, ...] | Refusal:
    """Adapter first, then the pieces in the order they were written."""
    from torqref.wrench.fitting import read_pieces

    words = [options.adapter] if options.adapter else []
    words += ["@".join(pair[name] for name in ("offset", "angle") if name in pair) for pair in options.pairs]
    return read_pieces("+".join(words), rack)


def _work_out(options: Namespace, asked: _Asked, wrench: Wrench | None) -> Setting | Refusal:
    from torqref.wrench.setting import achieved_by, setting_for

    direction = "anticlockwise" if options.anticlockwise else "clockwise"
    if options.achieved:
        return achieved_by(asked.torque, wrench, asked.parts, length=asked.length, direction=direction)
    return setting_for(
        asked.torque,
        wrench,
        asked.parts,
        length=asked.length,
        drag=asked.drag,
        unit=asked.unit,
        direction=direction,
    )


def _payload(options: Namespace, torque: Torque, setting: Setting) -> dict[str, object]:
    """The answer of the contract; `target` is in the unit of the setting, `printed` as it was typed."""
    from torqref.quantity.conversion import convert

    band, target = setting.at_fastener, None if options.achieved else torque.aim
    payload: dict[str, object] = {
        "target": None if target is None else convert(target, torque.unit, setting.unit),
        "setting": setting.value,
        "factor": setting.factor,
        "unit": setting.unit,
        "shown": setting.shown,
        "at_fastener": {"low": band.low, "target": band.target, "high": band.high} if band else None,
        "verdict": setting.verdict,
        "span": {"low": setting.span[0], "high": setting.span[1]} if setting.span else None,
        "notes": setting.notes,
        "printed": torque.text,
        "wrench": setting.wrench_id,
    }
    if options.achieved:
        payload["achieved"] = setting.value / setting.factor
    return payload


def _show(options: Namespace, setting: Setting, wrench: Wrench | None, console: Console) -> None:
    """Short lines, the number first."""
    from torqref.wrench.note import CAUTION

    if not options.achieved:
        tool = f"   {wrench.called}" if wrench else ""
        console.say(f"SET {setting.shown} {setting.unit}{tool}")
    if setting.at_fastener is not None:
        console.say(setting.sentence())
    for note in setting.notes:
        console.say(note)
    console.say(CAUTION)
