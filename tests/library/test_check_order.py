"""Orders that a diagram gives by its numbers: a ring is told with the usual cross, a page's pattern is not."""

from __future__ import annotations

from torqref.library.check_order import check_order
from torqref.library.file import parse_library
from torqref.library.group import Group

HEAD = 'format = 1\n[source]\nkind = "shop"\ntitle = "own sheet"\n[[group]]\nid = "lid"\n'
STAGE = '[[group.stage]]\ntorque = "24 N·m"\n'


def group(diagram: str) -> Group:
    file = parse_library(f"{HEAD}diagram = '''\n{diagram}'''\n{STAGE}".encode(), "sheet.toml")
    return file.groups[0]


def test_numbers_round_the_circle_are_told_with_the_usual_cross() -> None:
    ring = group("    1\n 8     2\n7       3\n 6     4\n    5\n")
    remarks = list(check_order(ring))
    assert remarks
    # the usual cross on eight: opposite pairs, each new pair halving the gaps
    assert any("1 5 3 7 2 6 4 8" in f"{remark.message} {remark.mend}" for remark in remarks)


def test_two_rows_from_the_middle_are_left_in_peace() -> None:
    assert list(check_order(group(" 7 3 1 5 9\n 8 4 2 6 10\n"))) == []


def test_five_clamps_on_a_rail_are_left_in_peace() -> None:
    assert list(check_order(group(" 1 2 3 4 5\n"))) == []
