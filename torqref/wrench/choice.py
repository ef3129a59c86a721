"""Which wrench of the rack: ranked with a reason in a few words, blocked ones visible with why."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date
from fractions import Fraction

from torqref.quantity.term import Torque
from torqref.wrench.adapter import Part
from torqref.wrench.band import Verdict
from torqref.wrench.demand import AT_FASTENER
from torqref.wrench.figure import percent
from torqref.wrench.objection import Objection
from torqref.wrench.rack import Rack, Wrench
from torqref.wrench.scale import Scale
from torqref.wrench.setting import Setting, attempt

# Best accuracy lies here, as shares of full scale: TM 1-1500-204-23-9 (US Army, 1992), paragraph 8-3.
BEST_FROM, BEST_TO = Fraction(3, 10), Fraction(8, 10)
_FIT: dict[Verdict, int] = {"inside": 0, "no window": 0, "touches": 1, "outside": 2}
_FIT_WORDS: dict[Verdict, str] = {
    "inside": "inside the window",
    "no window": "",
    "touches": "may just leave the window",
    "outside": "outside the window",
}


@dataclass(frozen=True, slots=True, kw_only=True)
class Offer:
    """One wrench of the rack for one target.

    Args:
        wrench: the wrench.
        setting: what to set on it; None where it is blocked.
        reason: why it stands where it stands, in a few words; for a blocked one, why it cannot do it.
        blocked: it cannot do it, and is never to be offered.
        days_overdue: days since its calibration ran out, 0 while in date.
    """

    wrench: Wrench
    setting: Setting | None
    reason: str
    blocked: bool
    days_overdue: int = 0

    @property
    def overdue(self) -> bool:
        """Whether its calibration has run out: not blocked, but a question to be asked once a day."""
        return self.days_overdue > 0

    @property
    def words(self) -> str:
        """What to take out of the drawer, as a sentence."""
        return f"Take {self.wrench.called}."


def choose(
    target: Torque,
    rack: Rack,
    pieces: tuple[Part, ...] = (),
    *,
    today: date,
    direction: str = "clockwise",
    drag: Torque | None = None,
    value_is: str = AT_FASTENER,
    unit: str | None = None,
) -> tuple[Offer, ...]:
    """Every wrench of the rack, the best first and the blocked ones last.

    In date comes before overdue, a scale in the unit that was asked for before another, a band inside the
    window before one that touches its ends, a mark near the value before one further off than the wrench
    itself may be, a certified share of scale before one below it, a scale in the printed unit before
    another, a share where wrenches are most accurate before one outside it, marks fine enough for the torque
    before coarse ones, the mark that lies nearer to the value, and then the wrench that reads nearest to
    the middle of its scale. Sources: TM 1-1500-204-23-9 (US Army, 1992), paragraph 8-3;
    the torque wrench paragraphs of NAVEDTRA 14001, 14003 and 14113 (US Navy).

    Args:
        target: the torque as printed.
        rack: the wrenches there are.
        pieces: what is on the drive square.
        today: to see what is past its calibration.
        direction: clockwise or anticlockwise.
        drag: measured drag of a locking nut.
        value_is: `setting with tool` where the page already corrected for its tool.
        unit: unit that the scale should have, where somebody asked for one; None for the printed one.
    """
    offers = [
        _offer(
            wrench,
            attempt(target, wrench, pieces, drag=drag, value_is=value_is, unit=unit, direction=direction),
            wrench.days_overdue(today),
        )
        for wrench in rack.wrenches
    ]
    return tuple(sorted(offers, key=lambda offer: _rank(offer, target.unit, unit or "")))


def best(offers: tuple[Offer, ...]) -> Offer | None:
    """The wrench to take, or None where every one is blocked."""
    return offers[0] if offers and not offers[0].blocked else None


def overdue_words(offer: Offer, offers: tuple[Offer, ...]) -> str:
    """What to say about a wrench whose calibration has run out, with one in date that would do.

    Empty while the wrench is in date.
    """
    if not offer.overdue:
        return ""
    ran_out = f"{offer.wrench.id} ran out {ago(offer.days_overdue)}."
    other = next((each for each in offers if not each.blocked and not each.overdue), None)
    return (
        f"{ran_out} {other.wrench.id} covers this." if other else f"{ran_out} No wrench in date covers this."
    )


def ago(days: int) -> str:
    """So many days ago, in words."""
    return "1 day ago" if days == 1 else f"{days} days ago"


def _offer(wrench: Wrench, setting: Setting | Objection, days: int) -> Offer:
    if isinstance(setting, Objection):
        return Offer(wrench=wrench, setting=None, reason=setting.few, blocked=True, days_overdue=days)
    return Offer(
        wrench=wrench,
        setting=setting,
        reason=_reason(wrench, setting, days),
        blocked=False,
        days_overdue=days,
    )


def _reason(wrench: Wrench, setting: Setting, days: int) -> str:
    """Share of scale, and what speaks against it."""
    share = share_of_scale(wrench, setting)
    off = percent(_off_mark(setting), signed=True)
    words = [
        f"{round(share * 100)} % of scale",
        "below its certified range" if share < wrench.certified_from else "",
        f"nearest mark {off} off" if is_coarse(wrench, setting) else "",
        _FIT_WORDS[setting.verdict],
        f"calibration ran out {ago(days)}" if days else "",
    ]
    return ", ".join(word for word in words if word)


def share_of_scale(wrench: Wrench, setting: Setting) -> Fraction:
    """The number to dial as a share of full scale."""
    return setting.dial / _scale(wrench, setting).high


def _scale(wrench: Wrench, setting: Setting) -> Scale:
    """The scale that a setting is dialled on."""
    return next(scale for scale in wrench.scales if scale.unit == setting.unit)


def is_coarse(wrench: Wrench, setting: Setting) -> bool:
    """Whether rounding to a mark costs more than the wrench itself may be off."""
    return abs(_off_mark(setting)) > wrench.tolerance


def _off_mark(setting: Setting) -> Fraction:
    """How far the mark lies from the setting worked out, as a share of it."""
    return setting.dial / setting.value - 1


def _rank(
    offer: Offer, printed: str, asked: str
) -> tuple[bool, bool, tuple[bool | int | Fraction, ...], str]:
    """What the order goes by, the heaviest first."""
    setting = offer.setting
    if setting is None:
        return (True, offer.overdue, (), offer.wrench.id)
    share = share_of_scale(offer.wrench, setting)
    merits = (
        setting.unit != (asked or setting.unit),
        _FIT[setting.verdict],
        is_coarse(offer.wrench, setting),
        share < offer.wrench.certified_from,
        setting.unit != printed,
        not BEST_FROM <= share <= BEST_TO,
        _scale(offer.wrench, setting).is_coarse_at(setting.dial),
        abs(_off_mark(setting)),
        abs(share - Fraction(1, 2)),
    )
    return (False, offer.overdue, merits, offer.wrench.id)
