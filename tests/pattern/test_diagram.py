"""Reading a sequence diagram."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from tests.pattern.published import HEAD, PUMP, drawn
from torqref.pattern.diagram import read_diagram
from torqref.pattern.fault import Fault
from torqref.pattern.layout import Layout


def faults(text: str) -> tuple[Fault, ...]:
    read = read_diagram(text)
    assert not isinstance(read, Layout)
    return read


def test_a_number_stands_at_its_centre_and_the_common_indent_does_not_count() -> None:
    layout = drawn("\n\n      7   12\n    3\n\n")
    assert {p.label: (p.x, p.y) for p in layout.positions} == {7: (2.0, 0.0), 12: (6.5, 0.0), 3: (0.0, 1.0)}


def test_blank_lines_between_rows_keep_their_distance() -> None:
    assert [p.y for p in drawn("1\n\n\n2").positions] == [0.0, 3.0]


def test_whatever_is_not_all_digits_is_a_landmark() -> None:
    layout = drawn("FRONT  1  M8  2\n  (3)  +--+")
    assert layout.labels == (1, 2)
    assert [landmark.text for landmark in layout.landmarks] == ["FRONT", "M8", "(3)", "+--+"]


def test_words_one_blank_apart_are_one_landmark() -> None:
    assert [landmark.text for landmark in drawn(HEAD).landmarks] == ["FRONT", "exhaust side", "inlet side"]


def test_a_landmark_among_the_bolts_keeps_its_place() -> None:
    layout = drawn(PUMP)
    shaft = layout.landmarks[0]
    assert (shaft.text, shaft.x, shaft.y) == ("(shaft)", 9.0, 2.0)
    assert layout.labels == tuple(range(1, 10))


def test_a_wide_sign_moves_what_follows_by_its_cells() -> None:
    assert drawn("前 1\n   2").positions[0].x == drawn("ab 1\n   2").positions[0].x


@pytest.mark.parametrize(
    ("text", "message", "mend"),
    [
        ("1\t2", "row 1 of the diagram holds a tab", "Write blanks instead"),
        ("1 2\n2 3", "2 stands 2 times in the diagram", "number of its own"),
        ("01 2", '"01" in row 1 of the diagram starts with a zero', "Write 1."),
        ("0 1", '"0" in row 1 of the diagram: positions count from 1', "from 1 on"),
        ("12345 1", "has more than 4 digits", "from 1 on"),
        ("１ 2", "is not written in the digits 0 to 9", "plain digits"),
        ("FRONT", "the diagram has no positions", "Write the number of each bolt"),
        ("", "the diagram has no positions", "Write the number of each bolt"),
        (" \n\n", "the diagram has no positions", "Write the number of each bolt"),
        ("\n".join(f"{n}" for n in range(1, 202)), "201 positions, at most 200", "Split the pattern"),
        ("1" + " " * 500 + "2", "larger than", "relative places"),
    ],
)
def test_what_cannot_be_read_is_told_with_its_mend(text: str, message: str, mend: str) -> None:
    found = faults(text)
    assert any(message in fault.message and mend in fault.mend for fault in found), found
    assert all(fault.severity == "error" for fault in found)


def test_every_fault_of_a_diagram_is_told_at_once() -> None:
    assert len(faults("1 1\n\t03 0 123456")) == 5


def test_two_hundred_positions_are_read() -> None:
    rows = [" ".join(str(row * 20 + number) for number in range(1, 21)) for row in range(10)]
    assert len(drawn("\n".join(rows)).labels) == 200


def test_hidden_characters_of_a_landmark_are_made_visible() -> None:
    assert drawn("FR\x1bONT 1").landmarks[0].text == "FR<U+001B>ONT"


@given(st.text(alphabet="0123456789 \nFRONT()-\t", max_size=200))
def test_any_text_is_read_or_told(text: str) -> None:
    read = read_diagram(text)
    if isinstance(read, Layout):
        assert read.positions
        assert len(set(read.labels)) == len(read.labels)
    else:
        assert read
        assert all(fault.message and fault.mend for fault in read)
