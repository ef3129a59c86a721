"""The tones: legible in sun and pit, and never the only sign."""

from __future__ import annotations

import pytest

from torqref.screens.theme import DARK, LIGHT, THEMES, TONES, Ink, contrast, themes_for

# What is read from two metres. WCAG 2.2, success criterion 1.4.6: contrast of at least 7 to 1.
MAIN = (
    "plain",
    "strong",
    "set",
    "bolt",
    "plate",
    "label",
    "now",
    "open",
    "way",
    "stop",
    "warn",
    "trouble",
    "title",
    "typed",
)


@pytest.mark.parametrize("name", ["dark", "light"])
@pytest.mark.parametrize("tone", MAIN)
def test_what_is_read_first_has_a_contrast_of_seven_to_one(name: str, tone: str) -> None:
    assert contrast(THEMES[name][tone]) >= 7


@pytest.mark.parametrize("name", ["dark", "light"])
@pytest.mark.parametrize("tone", sorted(set(TONES) - set(MAIN) - {"rule"}))
def test_everything_else_that_is_read_has_at_least_four_and_a_half(name: str, tone: str) -> None:
    # WCAG 2.2, success criterion 1.4.3
    assert contrast(THEMES[name][tone]) >= 4.5


def test_black_on_white_is_twenty_one_to_one() -> None:
    # WCAG 2.2: the ratio goes from 1 to 21
    assert contrast(Ink("#ffffff", "#000000")) == pytest.approx(21)
    assert contrast(Ink("#777777", "#ffffff")) == pytest.approx(4.48, abs=0.01)  # from memory


@pytest.mark.parametrize("name", THEMES)
def test_each_theme_knows_every_tone_and_no_other(name: str) -> None:
    assert set(THEMES[name]) == set(TONES)


@pytest.mark.parametrize("name", ["sixteen", "one colour"])
def test_without_colours_what_is_now_is_still_unlike_what_is_done(name: str) -> None:
    inks = THEMES[name]
    for tone in ("now", "trouble", "stop", "way", "key", "typed"):
        assert inks[tone] != inks["plain"]


def test_one_colour_uses_no_colour() -> None:
    assert all(not ink.fore and not ink.back for ink in THEMES["one colour"].values())


def test_a_terminal_is_offered_only_what_it_can_show() -> None:
    assert themes_for(0) == ("one colour",)
    assert themes_for(16) == ("sixteen", "one colour")
    assert themes_for(256)[:2] == ("dark", "light")


def test_light_is_light_and_dark_is_dark() -> None:
    assert DARK["plain"].back < "#303030"
    assert LIGHT["plain"].back > "#e0e0e0"
