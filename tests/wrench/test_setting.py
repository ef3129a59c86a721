"""From the printed target to the number on the wrench."""

from __future__ import annotations

from fractions import Fraction

import pytest

from torqref.document.refusal import Refusal
from torqref.quantity.term import Length, Torque
from torqref.wrench.adapter import Piece
from torqref.wrench.rack import Wrench
from torqref.wrench.scale import Scale
from torqref.wrench.setting import Setting, setting_for


def length(value: str, unit: str = "mm") -> Length:
    return Length(value=Fraction(value), unit=unit, decimals=0, text=f"{value} {unit}")


def torque(target: str, unit: str = "N·m") -> Torque:
    number = Fraction(target)
    return Torque(low=None, target=number, high=None, unit=unit, decimals=0, text=f"{target} {unit}")


def middle_wrench() -> Wrench:
    scale = Scale(unit="N·m", low=Fraction(10), high=Fraction(60), graduation=Fraction(1, 2))
    return Wrench(id="W2", name="middle", kind="click", scales=(scale,), length=length("290"))


def test_without_wrench_and_adapter_the_page_is_the_setting() -> None:
    setting = setting_for(torque("40"))
    assert isinstance(setting, Setting)
    assert (setting.shown, setting.value) == ("40", Fraction(40))
    assert not setting.notes


def test_a_crowfoot_straight_out_lowers_the_setting_and_falls_on_a_mark() -> None:
    # moment balance: 28 · 290 / 322 = 25.217 N·m
    setting = setting_for(torque("28"), middle_wrench(), (Piece(offset=length("32")),))
    assert isinstance(setting, Setting)
    assert float(setting.value) == pytest.approx(28 * 290 / 322)
    assert setting.shown == "25.0"


def test_above_the_scale_is_refused() -> None:
    assert isinstance(setting_for(torque("61"), middle_wrench()), Refusal)
