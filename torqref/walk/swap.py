"""Another wrench, crowfoot or unit in the middle of a walk: new settings from here on, told by a stop.

The printed values stay. What was set with the same wrench is set with the new one as far as it reaches;
the value to set now must be reached, or the change is refused.
"""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator
from dataclasses import dataclass, replace

from torqref.document.refusal import Refusal
from torqref.quantity.term import Torque
from torqref.walk.attempt import Act, Answer, No
from torqref.walk.bench import Bench
from torqref.walk.dialling import best_dial, dial_of, facts_of
from torqref.walk.event import Event
from torqref.walk.fitted import Fitted, adapter_of, refitted
from torqref.walk.plan import Dial, Plan, WrenchFacts
from torqref.walk.state import Progress
from torqref.wrench.rack import Rack, Wrench

USUAL_UNITS = ("N·m", "ft-lb", "in-lb")
_NAME_TOOLS = "Name the tools first: wrench ID crowfoot OFFSET."
NOTHING = ("none", "any", "without")
_ORDER = re.compile(r"^(?P<wrench>.*?)\s*(?:\bcrowfoot\s+(?P<crowfoot>.+?))?\s*(?:\bunit\s+(?P<unit>\S.*))?$")


@dataclass(frozen=True, slots=True, kw_only=True)
class Tools:
    """What is set from now on: a wrench or any, an adapter or none, a unit or the printed one."""

    wrench: Wrench | None
    fitted: Fitted
    unit: str = ""

    @property
    def words(self) -> str:
        """The tools as the record says them."""
        name = self.wrench.called if self.wrench else "any wrench"
        return ", ".join(part for part in (name, self.fitted.words, self.unit) if part)


def wrench(attempt: Act) -> Answer:
    """`wrench ID [crowfoot OFFSET[@ANGLE]|ADAPTER|none] [unit U]`: what is left out stays as it is."""
    place = dial_in_question(attempt.progress)
    if place < 0:
        return No(message="No value is set in the rest of this walk.")
    found = _ORDER.match(attempt.argument)
    wanted = found.groupdict() if found else {}
    if not any(wanted.values()):
        known = ", ".join(each.id for each in attempt.rack.wrenches) or "none is in the rack"
        return No(message=f"Write wrench and its id ({known}), crowfoot OFFSET, or unit and a unit.")
    old = attempt.progress.dials[place]
    tools = _tools(attempt.rack, old, wanted)
    return tools if isinstance(tools, No) else _swapped(attempt, place, tools)


def unit(attempt: Act) -> Answer:
    """`unit [U]`: the value to set in another unit; without a name the next one that the wrench has."""
    place = dial_in_question(attempt.progress)
    if place < 0:
        return No(message="No value is set in the rest of this walk.")
    old = attempt.progress.dials[place]
    held = attempt.rack.wrench(old.wrench) if old.wrench else None
    known = tuple(scale.unit for scale in held.scales) if held else _usual(old)
    if old.wrench and held is None:
        return No(message=f"{old.wrench} is not in the rack now; name a wrench first.")
    if not attempt.argument and len(known) < 2:
        return No(message=f"{old.wrench} has one scale only, in {known[0]}.")
    following = known[(known.index(old.unit) + 1) % len(known)] if old.unit in known else known[0]
    tools = _tools(attempt.rack, old, {"unit": attempt.argument or following})
    return tools if isinstance(tools, No) else _swapped(attempt, place, tools)


def _usual(dial: Dial) -> tuple[str, ...]:
    return tuple(dict.fromkeys((dial.target.unit, *USUAL_UNITS)))


def dial_in_question(progress: Progress) -> int:
    """Place of the setting that holds now, or of the next one to come; -1 where nothing is set any more."""
    if progress.current is None:
        return -1
    here = progress.current.steps[progress.step :] if progress.step >= 0 else ()
    rest = (step for round_ in progress.plan.rounds[progress.round + 1 :] for step in round_.steps)
    return next((step.dial for step in (*here, *rest) if step.dial >= 0), -1)


def _tools(rack: Rack, old: Dial, wanted: dict[str, str | None]) -> Tools | No:
    """The tools asked for; what is not named is kept."""
    name = (wanted.get("wrench") or "").strip()
    free = name.casefold() in NOTHING
    held = None if free else rack.wrench(name or old.wrench)
    if held is None and not free and (name or old.wrench):
        known = ", ".join(each.id for each in rack.wrenches)
        return No(message=f'No wrench "{name or old.wrench}" in the rack. Known: {known or "none"}.')
    fitted = _fitted(rack, old, wanted.get("crowfoot"))
    if isinstance(fitted, Refusal):
        return No(message=fitted.sentence())
    symbol = _unit_of(wanted.get("unit") or "")
    if isinstance(symbol, No):
        return symbol
    return _on_scale(Tools(wrench=held, fitted=fitted, unit=symbol))


def _fitted(rack: Rack, old: Dial, text: str | None) -> Fitted | Refusal:
    if text is None:
        return refitted(old.with_adapter, rack)
    return Fitted() if text.strip().casefold() in NOTHING else adapter_of(text.strip(), rack)


def _unit_of(text: str) -> str | No:
    if not text:
        return ""
    from torqref.quantity.reading import read_unit

    found = read_unit(text)
    return No(message=found.sentence()) if isinstance(found, Refusal) else found


def _on_scale(tools: Tools) -> Tools | No:
    """A wrench with several scales is held to the one in the unit asked for."""
    if tools.wrench is None or not tools.unit:
        return tools
    scales = tuple(scale for scale in tools.wrench.scales if scale.unit == tools.unit)
    if not scales:
        known = ", ".join(scale.unit for scale in tools.wrench.scales)
        return No(message=f"{tools.wrench.id} has no scale in {tools.unit}. Its scales: {known}.")
    return replace(tools, wrench=replace(tools.wrench, scales=scales))


def _swapped(attempt: Act, place: int, tools: Tools) -> Answer:
    """The event with the new settings; refused where the value in question cannot be set so."""
    progress = attempt.progress
    now = _dial(progress.dials[place].target, progress.plan, tools, progress.drag)
    if isinstance(now, Refusal):
        return No(message=now.sentence())
    now = _still_asked(now, progress.dials[place])
    dials = tuple(now if at == place else dial for at, dial in enumerate(_others(progress, place, tools)))
    shown = f"{now.shown} {now.unit}"
    facts = (facts_of(tools.wrench),) if tools.wrench else ()
    return (
        Event(
            kind="wrench",
            round=attempt.number,
            value=shown,
            text=f"{tools.words}: set {shown}",
            dials=dials,
            wrenches=facts,
        ),
    )


def _others(progress: Progress, place: int, tools: Tools) -> Iterator[Dial]:
    """Settings of the same wrench change with it as far as the new one reaches; others stay."""
    old = progress.dials[place]
    for dial in progress.dials:
        new = _dial(dial.target, progress.plan, tools, progress.drag) if dial.wrench == old.wrench else dial
        yield dial if isinstance(new, Refusal) else _still_asked(new, dial)


def _still_asked(new: Dial, old: Dial) -> Dial:
    """What must be asked of a value, whatever it is set with: another unit is no other wrench."""
    return replace(new, doubt=old.doubt, beyond="" if new.wrench else old.beyond)


def _dial(target: Torque, plan: Plan, tools: Tools, drag: Torque | None) -> Dial | Refusal:
    from torqref.wrench.setting import setting_for

    setting = setting_for(
        target,
        tools.wrench,
        tools.fitted.parts,
        drag=drag,
        value_is=plan.value_is,
        unit=tools.unit or None,
        direction=plan.direction,
    )
    return (
        setting
        if isinstance(setting, Refusal)
        else dial_of(target, setting, tools.wrench, tools.fitted.words)
    )


def redialled(attempt: Act, old: Dial, target: Torque, drag: Torque | None = None) -> Dial | No:
    """The setting for another value, or with a drag added: on the same tools where they reach it.

    Else on the best wrench of the rack with the same adapter. Where none reaches it the bare value is kept,
    and the walk asks before it is pulled; with an adapter that would be a wrong setting, and it is refused.
    """
    plan, drag = attempt.progress.plan, drag or attempt.progress.drag
    asked = old.unit if old.unit != old.target.unit else ""
    tools = _tools(attempt.rack, old, {"unit": asked or None})
    made = _dial(target, plan, tools, drag) if isinstance(tools, Tools) else tools
    if isinstance(made, Dial) and not old.beyond:
        return replace(made, doubt=old.doubt)
    fitted = refitted(old.with_adapter, attempt.rack)
    if isinstance(fitted, Refusal):
        return No(message=f"{fitted.sentence()} {_NAME_TOOLS}")
    bench = Bench(
        today=attempt.now.date(),
        rack=attempt.rack,
        parts=fitted.parts,
        adapter=fitted.words,
        unit=asked,
        drag=drag,
    )
    found = best_dial(target, bench, direction=plan.direction, value_is=plan.value_is)
    if isinstance(found, Refusal):
        return No(message=f"{found.sentence()} {_NAME_TOOLS}")
    return replace(found, doubt=old.doubt)


def newly_taken(attempt: Act, dials: Iterable[Dial]) -> tuple[WrenchFacts, ...]:
    """Facts of the wrenches that these settings need and the walk has not used before."""
    wanted = dict.fromkeys(dial.wrench for dial in dials if dial.wrench not in attempt.progress.wrenches)
    found = (attempt.rack.wrench(id_) for id_ in wanted if id_)
    return tuple(facts_of(wrench) for wrench in found if wrench is not None)
