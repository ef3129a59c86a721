"""Ready-made passes: one final value becomes the stages of a published scheme."""

from __future__ import annotations

from fractions import Fraction

from torqref.library.file import parse_library
from torqref.library.group import Group

HEAD = 'format = 1\n[source]\nkind = "shop"\ntitle = "own sheet"\n[[group]]\nid = "flange"\n'
FINAL = '[[group.stage]]\ntorque = "140 N·m"\nwindow = "130–150 N·m"\n'


def group(text: str) -> Group:
    file = parse_library(f"{HEAD}{text}".encode(), "sheet.toml")
    assert file.problems == ()
    return file.groups[0]


def test_the_flange_scheme_goes_30_70_100_then_round_until_still_waits_four_hours_and_again() -> None:
    # ASME PCC-1-2010 single-tool steps as restated by a gasket maker; dwell of 4 h: abstract of PVP2021-85321.
    found = group(f'layout = {{ circle = 8 }}\npasses = "flange"\n{FINAL}')
    told = [(stage.kind, stage.torque and stage.torque.aim, stage.until_still) for stage in found.stages]
    assert told == [
        ("hand", None, False),
        ("torque", Fraction(28), False),
        ("torque", Fraction(42), False),
        ("torque", Fraction(98), False),
        ("torque", Fraction(140), False),
        ("torque", Fraction(140), True),
        ("wait", None, False),
        ("torque", Fraction(140), True),
    ]
    due = found.stages[6].due
    assert due is not None
    assert due.minutes == 240


def test_the_last_pass_keeps_the_printed_window_and_a_share_makes_none_up() -> None:
    found = group(f'layout = {{ circle = 8 }}\npasses = "army-70"\n{FINAL}')
    first, last = found.stages[1].torque, found.stages[2].torque
    assert first is not None
    assert last is not None
    assert (first.aim, first.low, first.high) == (Fraction(98), None, None)
    assert first.text == "98 N·m, 70 % of 140 N·m"
    assert [last.low, last.high] == [Fraction(130), Fraction(150)]


def test_the_closing_round_of_a_flange_goes_round_the_circle() -> None:
    found = group(f'layout = {{ circle = 8 }}\npasses = "flange"\n{FINAL}')
    order = found.stages[5].order
    assert order is not None
    assert order.labels == (1, 2, 3, 4, 5, 6, 7, 8)


def test_a_wheel_has_its_final_value_with_the_weight_on() -> None:
    found = group(f'layout = {{ circle = 5 }}\npasses = "wheel"\n{FINAL}')
    assert [stage.state for stage in found.stages if stage.state] == [
        "wheel off the ground",
        "weight on the wheels",
    ]


def test_a_share_that_does_not_come_out_even_keeps_one_digit_more() -> None:
    found = group('layout = { circle = 4 }\npasses = "army-70"\n[[group.stage]]\ntorque = "25 N·m"\n')
    torque = found.stages[1].torque
    assert torque is not None
    assert (torque.aim, torque.text) == (Fraction(35, 2), "17.5 N·m, 70 % of 25 N·m")


def test_an_unknown_scheme_is_answered_with_the_nearest() -> None:
    file = parse_library(f'{HEAD}count = 4\npasses = "flnge"\n{FINAL}'.encode(), "sheet.toml")
    assert file.problems[0].mend == 'Did you mean "flange"?'
    assert file.groups == ()


def test_passes_beside_written_stages_are_refused() -> None:
    file = parse_library(f'{HEAD}count = 4\npasses = "flange"\n{FINAL}{FINAL}'.encode(), "sheet.toml")
    assert file.problems[0].message == "passes makes the stages, and 2 are written"
