"""What each event of a walk says as values: printed, set, turned and measured, each in a place of its own.

A setting that clicked is never a measured value: `set` holds what the wrench was set to, `measured` only
what an instrument showed, `turned` the degrees of a turn.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from torqref.walk.archive import Record
from torqref.walk.event import Event
from torqref.walk.plan import Dial, Round, WrenchFacts
from torqref.walk.progress import undone_numbers

MEASURED = ("actual", "measure", "found")
_SET, _TURNED = "set ", "turned "
_NO_FACTS = WrenchFacts(id="", name="")


@dataclass(frozen=True, slots=True, kw_only=True)
class Line:
    """One event of a walk with the values it stands for.

    Args:
        event: the event as the journal keeps it.
        undone: whether it was taken back.
        stage: number of the stage on the page, 0 where it belongs to none.
        instruction: the stage as printed.
        place: the place of its round, such as `left`.
        printed: the value of this bolt as printed, empty where there is none.
        set: what the wrench was set to; empty where nothing was set.
        turned: the degrees of a turn.
        measured: what an instrument showed; empty where nothing was read.
        wrench, adapter: the wrench in the hand, and what stood between it and the fastener.
        serial, calibration_due: of that wrench.
        recheck: whether it belongs to a recheck.
    """

    event: Event
    undone: bool = False
    stage: int = 0
    instruction: str = ""
    place: str = ""
    printed: str = ""
    set: str = ""
    turned: str = ""
    measured: str = ""
    wrench: str = ""
    adapter: str = ""
    serial: str = ""
    calibration_due: str = ""
    recheck: bool = False


def lines(record: Record) -> tuple[Line, ...]:
    """Every event of a walk with its values, in order."""
    return tuple(_lines(record))


def _lines(record: Record) -> Iterator[Line]:
    plan = record.header.plan
    dials, gone = plan.dials, undone_numbers(record.told.events)
    wrenches = {facts.id: facts for facts in plan.wrenches}
    for event in record.told.events:
        undone = event.number in gone
        yield _line(event, undone, plan.rounds, dials, wrenches)
        # What was taken back never held; what was not holds for everything after it.
        if event.dials and not undone:
            dials = event.dials
        wrenches.update({facts.id: facts for facts in event.wrenches})


def _line(
    event: Event,
    undone: bool,
    rounds: tuple[Round, ...],
    dials: tuple[Dial, ...],
    wrenches: dict[str, WrenchFacts],
) -> Line:
    round_ = rounds[event.round - 1] if 1 <= event.round <= len(rounds) else None
    if round_ is None:
        return Line(event=event, undone=undone, measured=_measured(event))
    dial = _dial(event, round_, dials)
    facts = wrenches.get(dial.wrench, _NO_FACTS) if dial else _NO_FACTS
    ticked = event.kind == "check-off"
    return Line(
        event=event,
        undone=undone,
        stage=round_.stage,
        instruction=round_.text,
        place=round_.place,
        printed=_printed(dial, round_) if ticked or event.kind in MEASURED else "",
        set=event.value.removeprefix(_SET) if ticked and event.value.startswith(_SET) else "",
        turned=_turned(event),
        measured=_measured(event),
        wrench=facts.id if ticked else "",
        adapter=dial.with_adapter if dial and ticked else "",
        serial=facts.serial if ticked else "",
        calibration_due=facts.calibration_due if ticked else "",
        recheck=round_.recheck,
    )


def _dial(event: Event, round_: Round, dials: tuple[Dial, ...]) -> Dial | None:
    step = next((step for step in round_.steps if step.labels == event.bolts), None)
    return dials[step.dial] if step is not None and 0 <= step.dial < len(dials) else None


def _printed(dial: Dial | None, round_: Round) -> str:
    """As printed: with its window where that stands beside the value."""
    return printed_text(dial) if dial is not None else round_.text


def printed_text(dial: Dial) -> str:
    """A value as printed, and its window where the text of the value does not give it."""
    from torqref.quantity.limits import limits_apart

    window = limits_apart(dial.target)
    return f"{dial.target.text} (window {window})" if window else dial.target.text


def _turned(event: Event) -> str:
    if event.kind != "check-off":
        return ""
    reached = event.text.removeprefix(_TURNED)
    if event.text.startswith(_TURNED) and reached.endswith("°"):
        return reached
    return event.value.removeprefix(_TURNED) if event.value.startswith(_TURNED) else ""


def _measured(event: Event) -> str:
    return event.value if event.kind in MEASURED else ""
