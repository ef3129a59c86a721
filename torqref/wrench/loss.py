"""What a multiplier loses, where nobody said it: the best case is set, and a usual loss is told beside it."""

from __future__ import annotations

from fractions import Fraction

from torqref.wrench.adapter import Multiplier
from torqref.wrench.demand import Outcome
from torqref.wrench.figure import figures, fixed, percent
from torqref.wrench.scale import digits

# What a multiplier passes on where nobody measured it: common practice, no source.
USUAL_EFFICIENCY = Fraction(90, 100)


def lossless(outcome: Outcome) -> tuple[str, ...]:
    """A multiplier whose loss nobody said: what is set now is the least; what a usual loss asks for."""
    return _best_case(outcome, f"set {_lossy(outcome)}")


def lossless_in_short(outcome: Outcome) -> tuple[str, ...]:
    """The same as `lossless` in the few words that a stop has room for."""
    share = percent(USUAL_EFFICIENCY)
    told = f"NO LOSS COUNTED: at {share} set {_lossy(outcome)} (common practice, no source)"
    return (told,) if _unmeasured(outcome) else ()


def _lossy(outcome: Outcome) -> str:
    """What would be set for a usual loss."""
    lossy = outcome.value / _usual_share(outcome)
    return f"{figures(lossy, outcome.demand.printed.decimals)} {outcome.demand.unit}"


def lossless_arrival(outcome: Outcome) -> tuple[str, ...]:
    """The same after the pull: what arrived is the most that can have arrived."""
    arrived = outcome.arrives(outcome.dial * _usual_share(outcome))
    return _best_case(outcome, f"{arrived} {outcome.demand.unit} arrived")


def _best_case(outcome: Outcome, usual: str) -> tuple[str, ...]:
    """That no loss is counted, loudly, and what holds for a usual one."""
    unknown, share = _unmeasured(outcome), percent(USUAL_EFFICIENCY)
    if not unknown:
        return ()
    ratio = ratio_text(unknown[0])
    return (
        f"NO LOSS COUNTED: {ratio}:1 at 100 % is the best case, less arrives. "
        f"At {share} {usual} ({share}: common practice, no source). "
        f"Write what was measured for this box: {ratio}:1 {share}.",
    )


def _unmeasured(outcome: Outcome) -> tuple[Multiplier, ...]:
    """The multipliers whose loss nobody said."""
    boxes = (part for part in outcome.demand.applied if isinstance(part, Multiplier))
    return tuple(box for box in boxes if box.efficiency is None)


def _usual_share(outcome: Outcome) -> Fraction:
    return Fraction(USUAL_EFFICIENCY ** len(_unmeasured(outcome)))


def ratio_text(box: Multiplier) -> str:
    """The turns in for one turn out, with the digits it needs."""
    return fixed(box.ratio, digits(box.ratio))
