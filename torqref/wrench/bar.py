"""A weight on a bar in the place of a wrench: where to stand, or what a push gives. Always an estimate."""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction

from torqref.quantity.term import Length, Torque
from torqref.wrench.figure import figures
from torqref.wrench.weight import Weight, arm_for, moment

# cos 15° is 0.966: what a bar that far from level costs.
NOTES = (
    "An estimate: the weight, and the level distance to it, are wrong in full in the torque.",
    "Keep the bar level and the weight still; 15° off level gives 3 % less, and a jerk far more.",
    "Write it so in the record: actual VALUE, and note estimated with a weight on a bar.",
)


@dataclass(frozen=True, slots=True, kw_only=True)
class Bar:
    """A weight at a level distance from the centre of the fastener, and its torque.

    Args:
        weight: the weight.
        arm, arm_unit: the level distance.
        torque, unit: the torque.
        asked: `arm` or `torque`, whichever was worked out.
    """

    weight: Weight
    arm: Fraction
    arm_unit: str
    torque: Fraction
    unit: str
    asked: str

    def sentence(self) -> str:
        """What was worked out, beside what was given."""
        arm, torque = f"{_shown(self.arm)} {self.arm_unit}", f"{_shown(self.torque)} {self.unit}"
        if self.asked == "arm":
            return f"{torque} with {self.weight.text}: {arm} from the centre of the fastener."
        return f"{self.weight.text} at {arm} from the centre of the fastener: {torque}."


def bar_for(weight: Weight, torque: Torque) -> Bar:
    """Where a weight gives a torque: d = T / W; in inches where the torque is in pounds, else in mm.

    >>> from torqref.quantity.reading import read_torque
    >>> from torqref.wrench.weight import read_weight
    >>> bar_for(read_weight("150 lb"), read_torque("300 ft-lb")).sentence()
    '300 ft-lb with 150 lb: 24 in from the centre of the fastener.'
    """
    arm_unit = "in" if torque.unit.endswith("lb") else "mm"
    arm = arm_for(torque.aim, torque.unit, weight, arm_unit)
    return Bar(weight=weight, arm=arm, arm_unit=arm_unit, torque=torque.aim, unit=torque.unit, asked="arm")


def bar_with(weight: Weight, arm: Length) -> Bar:
    """What a weight gives at an arm: T = W · d; in ft-lb where both are in pounds and inches, else in N·m.

    >>> from torqref.quantity.length import read_length
    >>> from torqref.wrench.weight import read_weight
    >>> bar_with(read_weight("18 lb"), read_length("6 in")).sentence()
    '18 lb at 6 in from the centre of the fastener: 9 ft-lb.'
    """
    unit = "ft-lb" if weight.unit == "lbf" and arm.unit in ("in", "ft") else "N·m"
    torque = moment(weight, arm, unit)
    return Bar(weight=weight, arm=arm.value, arm_unit=arm.unit, torque=torque, unit=unit, asked="torque")


def _shown(value: Fraction) -> str:
    """A number without noughts behind it that nobody measured."""
    shown = figures(value)
    return shown.rstrip("0").rstrip(".") if "." in shown else shown
