"""A technician writes a thread as the trade does; the tool reads it, or says what may have been meant."""

from __future__ import annotations

from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from torqref.document.refusal import Refusal
from torqref.fastener.geometry import Thread
from torqref.fastener.thread import read_thread


def read(text: str) -> Thread:
    found = read_thread(text)
    assert isinstance(found, Thread), found
    return found


def refused(text: str) -> Refusal:
    found = read_thread(text)
    assert isinstance(found, Refusal), found
    return found


@pytest.mark.parametrize(
    "text",
    [
        "M8",
        "m8",
        "M 8",
        "M8x1.25",
        "M8X1,25",
        "M8×1.25",
        "M8*1.25",
        "M8-1.25",
        "M8 1.25",
        "M8x1.25-6g",
        "M08",
        "M8 bolt",
        " M8 ",
        "M8 coarse",
        "M8 RH",
    ],
)
def test_every_spelling_of_a_coarse_metric_thread(text: str) -> None:
    found = read(text)
    assert (found.diameter_mm, found.pitch_mm) == (Fraction(8), Fraction(5, 4))
    assert (found.designation, found.system, found.coarse, found.left_hand) == (
        "M8x1.25",
        "metric",
        True,
        False,
    )


@pytest.mark.parametrize(
    ("text", "designation", "diameter_in", "tpi", "coarse"),
    [
        ("3/8-16 UNC", "3/8-16 UNC", "3/8", 16, True),
        ("3/8-16", "3/8-16 UNC", "3/8", 16, True),
        ("3/8 - 16 UNC-2A", "3/8-16 UNC", "3/8", 16, True),
        ('3/8"-24', "3/8-24 UNF", "3/8", 24, False),
        ("3/8″-24", "3/8-24 UNF", "3/8", 24, False),
        ("3/8 in-24", "3/8-24 UNF", "3/8", 24, False),
        ("3/8 UNF", "3/8-24 UNF", "3/8", 24, False),
        ("3/8 x 24", "3/8-24 UNF", "3/8", 24, False),
        (".375-16", "3/8-16 UNC", "3/8", 16, True),
        ("0.375-16 UNC", "3/8-16 UNC", "3/8", 16, True),
        ("1/4-28", "1/4-28 UNF", "1/4", 28, False),
        ("¼-28", "1/4-28 UNF", "1/4", 28, False),
        ("7/16-20 UNJF-3A", "7/16-20 UNF", "7/16", 20, False),
        ("1-8", "1-8 UNC", "1", 8, True),
        ("1-14", "1-14 UNS", "1", 14, False),
        ("1-1/8-7", "1-1/8-7 UNC", "9/8", 7, True),
        ("1 1/8-12", "1-1/8-12 UNF", "9/8", 12, False),
        ("1⅛-7", "1-1/8-7 UNC", "9/8", 7, True),
        ("1-1/4-8 UN", "1-1/4-8 UN", "5/4", 8, False),
        ("#10-24", "#10-24 UNC", "0.190", 24, True),
        ("No. 10-24", "#10-24 UNC", "0.190", 24, True),
        ("no 10 - 32", "#10-32 UNF", "0.190", 32, False),
        ("10-24", "#10-24 UNC", "0.190", 24, True),
        ("8-36", "#8-36 UNF", "0.164", 36, False),
        ("UNC 3/8", "3/8-16 UNC", "3/8", 16, True),
        ("1/4 UNF 28", "1/4-28 UNF", "1/4", 28, False),
    ],
)
def test_every_spelling_of_an_inch_thread(
    text: str, designation: str, diameter_in: str, tpi: int, coarse: bool
) -> None:
    found = read(text)
    assert found.designation == designation
    assert found.system == "unified"
    assert found.diameter_mm == Fraction(diameter_in) * Fraction("25.4")
    assert found.pitch_mm == Fraction("25.4") / tpi
    assert found.coarse is coarse


@pytest.mark.parametrize(
    "text",
    [
        "M24x1.5 LH",
        "M24x1.5LH",
        "M24x1.5-LH",
        "M24x1.5 left hand",
        "M24x1.5 left-hand thread",
        "LH M24x1.5",
        "M24x1.5 (LH)",
        "M24x1.5 L.H.",
    ],
)
def test_left_hand_is_heard_in_every_wording(text: str) -> None:
    found = read(text)
    assert found.left_hand
    assert found.designation == "M24x1.5 LH"


def test_a_bare_inch_size_is_coarse_and_says_so() -> None:
    found = read("3/8")
    assert found.designation == "3/8-16 UNC"
    assert found.notes == ("3/8 alone is read as coarse, 3/8-16 UNC.",)


def test_a_bare_metric_size_is_coarse_without_a_word() -> None:
    found = read("M6")
    assert (found.designation, found.notes) == ("M6x1", ())


def test_an_odd_pitch_is_computed_and_noticed() -> None:
    assert "1.2 mm is no usual pitch of M8" in read("M8x1.2").notes[0]
    assert "17 is no usual number of threads per inch" in read("3/8-17").notes[0]
    assert read("M60x2").notes == ()


@pytest.mark.parametrize(
    ("text", "readings"),
    [
        ("M8x125", ("M8x1.25", "M8")),
        ("M10x15", ("M10x1.5", "M10")),
        ("M10 fine", ("M10x1.25", "M10x1", "M10x0.75")),
        ("1/4-20 UNF", ("1/4-20 UNC", "1/4-28 UNF")),
        ("3/8 x 12", ("3/8-12", "3/8-16 UNC", "3/8-24 UNF")),
        ("3/8-160", ("3/8-16 UNC",)),
        ("N8", ("M8",)),
        # what stands beside a thread may be dropped, but never its pitch
        ("M14x1.25 spark plug", ("M14x1.25",)),
        ("7/16-20 JIC", ("7/16-20 UNF",)),
        ("Tr20x4", ()),
        ("8", ("M8", "#8-32 UNC", "#8-36 UNF")),
        ("24-1.5", ("M24x1.5",)),
        ("10/32", ("#10-32", "5/16-18 UNC")),
        ("11/16", ("11/16-24 UNEF",)),
    ],
)
def test_what_has_no_one_meaning_is_refused_with_the_readings(text: str, readings: tuple[str, ...]) -> None:
    assert refused(text).readings == readings


def test_every_reading_offered_can_be_typed() -> None:
    for text in ("M8x125", "M10 fine", "1/4-20 UNF", "3/8 x 12", "8", "13 mm", "M17", "9/16 hex", "M13 LH"):
        for reading in refused(text).readings:
            read(reading)


@pytest.mark.parametrize(
    ("text", "thread"),
    [
        ("13 mm", "M8"),
        ("13mm", "M8"),
        ("17 mm hex", "M10"),
        ("17 AF", "M10"),
        ("SW 17", "M10"),
        ("10 mm socket", "M6"),
        ("14 mm bolt", "M10"),
        ("9/16 hex", "3/8-16"),
        ('1/2" socket', "5/16-18"),
        ("M13", "M8x1.25"),
        ("M17", "M10x1.5"),
        ("M19", "M12x1.75"),
    ],
)
def test_a_spanner_size_is_noticed(text: str, thread: str) -> None:
    found = refused(text)
    assert found.readings[0] == thread
    assert "hexagon" in found.message


def test_a_length_of_a_bolt_is_no_pitch() -> None:
    assert read("M8x30").designation == "M8x1.25"
    assert "length" in read("M8x30").notes[0]
    assert read("M8x1.25x30").designation == "M8x1.25"
    assert read("1/4-20 x 1-1/2").designation == "1/4-20 UNC"


@pytest.mark.parametrize("text", ["G1/4", "1/4 NPT", "1/8 BSP", "R 1/8", "3/8 BSW"])
def test_other_systems_are_known_and_not_taken_for_bolts(text: str) -> None:
    assert read(text).system == "other"


@pytest.mark.parametrize(
    "text", ["", " ", "M", "M0", "M8x0", "M2000", "eight", "1/0", "3/0-16", "x" * 5000, "M8\x1b[2J", "9" * 59]
)
def test_nonsense_is_refused_in_a_sentence(text: str) -> None:
    assert refused(text).message


@given(st.text(max_size=80))
def test_no_text_ever_breaks_the_reading(text: str) -> None:
    assert isinstance(read_thread(text), Thread | Refusal)


@given(st.text(alphabet="MmxX#0123456789/-.\"' UNCFLHmnohex", max_size=20))
def test_no_thread_like_text_ever_breaks_the_reading(text: str) -> None:
    found = read_thread(text)
    if isinstance(found, Thread):
        assert found.stress_area_mm2 > 0
        assert found.root_diameter_mm < found.pitch_diameter_mm < float(found.diameter_mm)
        again = read(found.designation)
        assert (again.diameter_mm, again.pitch_mm) == (found.diameter_mm, found.pitch_mm)
        assert again.left_hand == found.left_hand


@pytest.mark.parametrize("text", ["G 1/4 A", "G1/4A", "G 1/4 B", "G 1/4"])
def test_a_tolerance_class_of_a_pipe_thread_changes_nothing(text: str) -> None:
    # ISO 228-1: A or B behind an external thread is its tolerance class.
    assert read(text).designation == "G 1/4"
