"""What the technician is asked before a value that would break the bolt is pulled, and what stays quiet."""

from __future__ import annotations

from dataclasses import replace

import pytest

from torqref.library.doubt import doubt_of
from torqref.library.group import Group
from torqref.library.quick import quick_group
from torqref.library.shelf import read_shelf, shipped_folder


def group(text: str) -> Group:
    found = quick_group(text, "2x5")
    assert isinstance(found, Group), found
    return found


# M6 8.8 carries about 8 to 14 N·m by every published table; in foot-pounds the same digits are 12 times that.
@pytest.mark.parametrize("text", ["M6 8.8 96 ft-lb", "M6 8.8 100 N·m", "M6 90 ft-lb", "M8 10.9 240 N·m"])
def test_a_value_that_would_break_the_bolt_is_asked_about(text: str) -> None:
    assert "M" in doubt_of(group(text))


@pytest.mark.parametrize(
    "text",
    [
        "M6 8.8 96 in-lb",
        "M8 10.9 24 N·m",
        "M8 24 N·m",
        "200 N·m",
        "M10 12.9 30 N·m + 90° + 90°",
        "M8 10.9 2 N·m",
    ],
)
def test_a_plausible_value_and_one_without_a_thread_are_left_in_peace(text: str) -> None:
    assert doubt_of(group(text)) == ""


def test_the_likely_slip_is_named() -> None:
    assert "96 in-lb" in doubt_of(group("M6 8.8 96 ft-lb"))


def test_a_value_that_holds_the_tool_says_nothing_about_the_bolt() -> None:
    assert doubt_of(replace(group("M6 8.8 96 ft-lb"), value_is="setting with tool")) == ""


def test_every_position_with_a_fastener_of_its_own_is_judged() -> None:
    from torqref.library.fastener import Fastener

    found = group("M12 10.9 100 N·m")
    small = Fastener(at=(3,), thread="M6", grade="8.8")
    assert doubt_of(found) == ""
    assert "M6" in doubt_of(replace(found, fasteners=(small,)))


def test_the_shipped_library_raises_no_doubt() -> None:
    shelf = read_shelf([shipped_folder()])
    assert shelf.groups
    assert {identity: doubt_of(each) for identity, each in shelf.groups.items() if doubt_of(each)} == {}
