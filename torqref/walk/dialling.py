"""What to set for the values of a plan, with the wrench asked for or the best of the rack."""

from __future__ import annotations

from dataclasses import replace

from torqref.document.refusal import Refusal
from torqref.library.group import Group
from torqref.quantity.term import Torque
from torqref.walk.bench import Bench
from torqref.walk.plan import Dial, WrenchFacts
from torqref.wrench.choice import best, choose
from torqref.wrench.rack import Wrench
from torqref.wrench.setting import Setting, setting_for


def dial_for(target: Torque, group: Group, bench: Bench, wrench: Wrench | None) -> Dial | Refusal:
    """What to set for one printed value, with the wrench asked for or the best of the rack."""
    direction = "anticlockwise" if group.left_hand else "clockwise"
    if wrench is not None or not bench.rack.wrenches:
        setting = setting_for(
            target,
            wrench,
            bench.parts,
            drag=bench.drag,
            value_is=group.value_is,
            unit=bench.unit or None,
            direction=direction,
        )
        return setting if isinstance(setting, Refusal) else dial_of(target, setting, wrench, bench.adapter)
    return best_dial(target, bench, direction=direction, value_is=group.value_is)


def best_dial(target: Torque, bench: Bench, *, direction: str, value_is: str) -> Dial | Refusal:
    """The best wrench of the rack; where none reaches, the bare value with the reason beside it.

    Args:
        target: the value as printed.
        bench: the rack, what is on the drive, the unit asked for and the drag.
        direction: clockwise or anticlockwise.
        value_is: `at fastener` or `setting with tool`.

    Returns:
        What to set; or why not, where the adapter of the bench goes on none of the wrenches.
    """
    offers = choose(
        target,
        bench.rack,
        bench.parts,
        today=bench.today,
        direction=direction,
        drag=bench.drag,
        value_is=value_is,
        unit=bench.unit or None,
    )
    taken = best(offers)
    if taken is not None and taken.setting is not None:
        return dial_of(target, taken.setting, taken.wrench, bench.adapter)
    reasons = "; ".join(f"{offer.wrench.id} {offer.reason}" for offer in offers)
    if bench.parts:
        message = f"no wrench of the rack fits with this adapter ({reasons})"
        return Refusal(text=target.text, message=message)
    bare = setting_for(target, drag=bench.drag, value_is=value_is)
    return bare if isinstance(bare, Refusal) else _beyond(dial_of(target, bare, None, ""), reasons)


def _beyond(dial: Dial, reasons: str) -> Dial:
    """A bare value that no wrench at hand reaches."""
    beyond = f"no wrench of the rack fits: {reasons or 'none is named now'}"
    return replace(dial, notes=(beyond, *dial.notes), beyond=beyond)


def dial_of(target: Torque, setting: Setting, wrench: Wrench | None, adapter: str) -> Dial:
    """A setting as the plan keeps it."""
    band = setting.at_fastener
    name = "" if wrench is None else ", ".join(part for part in (wrench.id, wrench.mark) if part)
    return Dial(
        target=target,
        value=setting.dial,
        unit=setting.unit,
        shown=setting.shown,
        wrench="" if wrench is None else wrench.id,
        wrench_name=name,
        with_adapter=adapter,
        low=band.low if band else None,
        high=band.high if band else None,
        notes=setting.notes,
        short=setting.short,
        pull="" if wrench is None else wrench.pull,
    )


def bare_dial(target: Torque, group: Group, bench: Bench) -> Dial | Refusal:
    """The value without a wrench, where nothing is pulled to it."""
    setting = setting_for(target, value_is=group.value_is, unit=bench.unit or None)
    return setting if isinstance(setting, Refusal) else dial_of(target, setting, None, "")


def facts_of(wrench: Wrench, instead: str = "") -> WrenchFacts:
    """What the record keeps of a wrench."""
    return WrenchFacts(
        id=wrench.id,
        name=wrench.name,
        serial=wrench.serial,
        calibration_due=wrench.calibration_due.isoformat() if wrench.calibration_due else "",
        instead=instead,
    )


def used_facts(group: Group, bench: Bench, dials: tuple[Dial, ...]) -> tuple[WrenchFacts, ...]:
    """The wrenches that these settings are made for; one past its date with another that would do."""
    used = {dial.wrench: dial for dial in reversed(dials)}
    return tuple(
        facts_of(
            wrench,
            _instead(group, bench, used[wrench.id]) if wrench.days_overdue(bench.today) else "",
        )
        for wrench in bench.rack.wrenches
        if wrench.id in used
    )


def _instead(group: Group, bench: Bench, dial: Dial) -> str:
    """Id of a wrench in date that covers the same value, empty for none."""
    offers = choose(
        dial.target,
        bench.rack,
        bench.parts,
        today=bench.today,
        direction="anticlockwise" if group.left_hand else "clockwise",
        drag=bench.drag,
        value_is=group.value_is,
    )
    return next((offer.wrench.id for offer in offers if not offer.blocked and not offer.overdue), "")
