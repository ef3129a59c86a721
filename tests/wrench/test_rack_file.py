"""A rack file: what is right loads, what is wrong is told with file, line and mend."""

from __future__ import annotations

from datetime import date
from fractions import Fraction
from pathlib import Path

import pytest

from tests.wrench.bench import piece, scale
from torqref.document.problem import Problem
from torqref.wrench.adapter import Extension, Joint, Multiplier, Piece
from torqref.wrench.rack import Rack, read_rack

HEAD = "format = 1\n"
SCALE = '[[wrench.scale]]\nrange = "10–60 N·m"\ngraduation = "0.5 N·m"\n'
PLAIN = '[[wrench]]\nid = "W1"\nkind = "click"\ntolerance = "4 %"\nlength = "290 mm"\ncalibration_due = 2027-11-30\n'
MEASURED = 'measured_by = "practice"\nmeasured_on = 2027-01-15\n'
GOOD = PLAIN + SCALE


@pytest.fixture
def rack_in(tmp_path: Path) -> Reader:
    return Reader(tmp_path / "wrenches.toml")


class Reader:
    """Writes a rack file and reads it."""

    def __init__(self, path: Path) -> None:
        self.path = path

    def read(self, text: str, *, thorough: bool = False) -> tuple[Rack, tuple[Problem, ...]]:
        self.path.write_text(text, encoding="utf-8")
        return read_rack(self.path, thorough=thorough)

    def one(self, text: str) -> Problem:
        """The only problem of a rack."""
        _, problems = self.read(HEAD + text, thorough=True)
        assert len(problems) == 1, [problem.sentence() for problem in problems]
        return problems[0]


def test_a_whole_wrench_is_read(rack_in: Reader) -> None:
    rack, problems = rack_in.read(
        HEAD
        + '[[wrench]]\nid = "W9"\nname = "middle"\nmark = "yellow tape"\nkind = "dial"\ndrive = "3/8 in"\n'
        'tolerance = "± 3 %"\ntolerance_anticlockwise = "6 %"\ncertified_from = "10 %"\nlength = "11 1/2 in"\n'
        'length_to = "pivot"\ndirections = ["clockwise", "anticlockwise"]\ncalibration_due = "2027-11-30"\n'
        'serial = "P-1"\n' + SCALE + '[[wrench.scale]]\nrange = "8–44 ft-lb"\ngraduation = "0.5 ft-lb"\n',
        thorough=True,
    )  # fmt: skip
    assert problems == ()
    found = rack.wrench("w9")
    assert found is not None
    assert (found.name, found.called, found.kind, found.drive) == (
        "middle",
        "W9, yellow tape",
        "dial",
        "3/8 in",
    )
    assert found.scales == (scale("10", "60", "0.5"), scale("8", "44", "0.5", "ft-lb"))
    assert found.tolerance_in("clockwise") == Fraction(3, 100)
    assert found.tolerance_in("anticlockwise") == Fraction(6, 100)
    assert found.certified_from == Fraction(1, 10)
    assert found.length is not None
    assert (found.length.value, found.length.unit) == (Fraction(23, 2), "in")
    assert found.length_to == "pivot"
    assert found.directions == ("clockwise", "anticlockwise")
    assert (found.calibration_due, found.serial) == (date(2027, 11, 30), "P-1")


def test_the_class_of_iso_6789_stands_for_its_tolerance(rack_in: Reader) -> None:
    text = HEAD + PLAIN.replace('tolerance = "4 %"', 'iso = "II A"')
    small = '[[wrench.scale]]\nrange = "1–8 N·m"\ngraduation = "0.1 N·m"\n'
    large, _ = rack_in.read(text + SCALE)
    little, _ = rack_in.read(text + small)
    assert [rack.wrenches[0].tolerance for rack in (large, little)] == [Fraction(4, 100), Fraction(6, 100)]


def test_a_year_after_calibration_it_runs_out(rack_in: Reader) -> None:
    for made, due in (("2027-01-31", date(2028, 1, 31)), ("2028-02-29", date(2029, 2, 28))):
        rack, _ = rack_in.read(HEAD + GOOD.replace("calibration_due = 2027-11-30", f"calibrated = {made}"))
        assert rack.wrenches[0].calibration_due == due


def test_certified_from_its_lowest_mark(rack_in: Reader) -> None:
    rack, _ = rack_in.read(HEAD + PLAIN + 'certified_from = "lowest mark"\n' + SCALE)
    assert rack.wrenches[0].certified_from == Fraction(1, 6)


def test_a_preset_wrench_has_one_value(rack_in: Reader) -> None:
    text = PLAIN.replace("click", "preset") + '[[wrench.scale]]\nvalue = "24 N·m"\n'
    rack, problems = rack_in.read(HEAD + text)
    assert problems == ()
    assert rack.wrenches[0].scales == (scale("24", "24", "0"),)


def test_adapters_of_every_kind(rack_in: Reader) -> None:
    rack, problems = rack_in.read(
        HEAD + GOOD
        + '[[adapter]]\nid = "flare"\njaw = "17 mm"\noffset = "32 mm"\nangle = 45\n'.replace("45", '"45°"') + MEASURED
        + '[[adapter]]\nid = "bone"\n' + MEASURED
        + '[[adapter.piece]]\noffset = "6 in"\n[[adapter.piece]]\noffset = "1.5 in"\nangle = "90"\n'
        + '[[adapter]]\nid = "long"\nkind = "extension"\n'
        + '[[adapter]]\nid = "uj"\nkind = "universal joint"\nbend = "15"\n'
        + '[[adapter]]\nid = "box"\nkind = "multiplier"\nratio = "4:1"\nloss = "10 %"\n'
        + '[[adapter]]\nid = "box2"\nkind = "multiplier"\nratio = "5:1"\nefficiency = "80 %"\n'
    )  # fmt: skip
    assert problems == ()
    kinds = {one.id: one.pieces for one in rack.adapters}
    assert kinds["flare"] == (piece("32 mm", 45),)
    assert [float(one.angle) for one in kinds["bone"] if isinstance(one, Piece)] == [0, 90]
    assert isinstance(kinds["long"][0], Extension)
    assert kinds["uj"] == (Joint(bend=Fraction(15)),)
    assert kinds["box"] == (Multiplier(ratio=Fraction(4), efficiency=Fraction(10, 11)),)
    assert kinds["box2"] == (Multiplier(ratio=Fraction(5), efficiency=Fraction(8, 10)),)


def test_a_good_wrench_loads_beside_a_bad_one(rack_in: Reader) -> None:
    rack, problems = rack_in.read(HEAD + GOOD + '[[wrench]]\nid = "W2"\nkind = "clik"\n' + SCALE)
    assert [one.id for one in rack.wrenches] == ["W1"]
    wrong = [problem for problem in problems if problem.severity == "error"]
    assert [problem.key for problem in wrong] == ["wrench[2].kind"]
    assert wrong[0].line == 13
    assert wrong[0].mend == 'Did you mean "click"?'
    assert wrong[0].file.endswith("wrenches.toml")


# text, what the message or the mend says
WRONG = [
    (GOOD.replace('id = "W1"', 'id = "my wrench"'), "is not an id"),
    (GOOD.replace('id = "W1"\n', ""), 'Write id = "W1"'),
    (GOOD.replace('kind = "click"\n', ""), "kind is missing"),
    (GOOD.replace("tolerance =", "tolerance_anticlokwise ="), 'Did you mean "tolerance_anticlockwise"?'),
    (GOOD.replace('"4 %"', '"0.04"'), "is not a percentage"),
    (GOOD.replace('"4 %"', '"40 %"'), "is not between 0 % and 25 %"),
    (GOOD.replace('tolerance = "4 %"', 'iso = "II D"'), "not an ISO 6789 class whose figures are known"),
    (GOOD.replace('"290 mm"', '"290"'), "has no unit"),
    (GOOD.replace('"290 mm"', '"0 mm"'), "is no length of a wrench"),
    (GOOD.replace('"290 mm"', '"29 ft"'), "longer than any wrench"),
    (GOOD.replace("2027-11-30", '"next year"'), "is not a date"),
    (PLAIN + 'directions = ["counterclockwise"]\n' + SCALE, 'Did you mean "anticlockwise"?'),
    (PLAIN + 'length_to = "pin"\n' + SCALE, '"pin" is not known here'),
    (PLAIN, "the wrench has no scale"),
    (GOOD.replace("10–60 N·m", "60 N·m"), "is not a range"),
    (GOOD.replace("10–60 N·m", "0–60 N·m"), "Begin at the first mark"),
    (GOOD.replace("0.5 N·m", "0.5 ft-lb"), "is not a step of the scale"),
    (GOOD.replace("0.5 N·m", "80 N·m"), "is not a step of the scale"),
    (GOOD + SCALE, "a second scale in N·m"),
    (GOOD + GOOD, "stands here twice"),
    (GOOD + '[[adapter]]\nid = "a"\nkind = "crowfeet"\noffset = "32 mm"\n' + MEASURED, 'Did you mean "crowfoot"?'),
    (GOOD + '[[adapter]]\nid = "a"\n' + MEASURED, 'Write offset = "32 mm"'),
    (GOOD + '[[adapter]]\nid = "a"\njaw = "17 mm"\noffset = "17 mm"\n' + MEASURED, "17 mm is the jaw"),
    (GOOD + '[[adapter]]\nid = "a"\noffset = "32 mm"\nangle = "270"\n' + MEASURED, "it is 90°"),
    (GOOD + '[[adapter]]\nid = "a"\nkind = "multiplier"\nratio = "1:4"\n', "is not the ratio of a multiplier"),
]  # fmt: skip


@pytest.mark.parametrize(("text", "says"), WRONG)
def test_each_wrong_entry_has_its_own_message(rack_in: Reader, text: str, says: str) -> None:
    _, problems = rack_in.read(HEAD + text)
    wrong = [problem for problem in problems if problem.severity == "error"]
    assert len(wrong) == 1, [problem.sentence() for problem in wrong]
    assert says in wrong[0].sentence()
    assert wrong[0].line is not None
    assert wrong[0].mend


def test_the_messages_differ_from_each_other() -> None:
    assert len({says for _, says in WRONG}) >= len(WRONG) - 1


# text, severity, what it says; the tool itself still loads
TOLD = [
    (GOOD.replace('tolerance = "4 %"\n', ""), "warning", "±4 % is taken"),
    (GOOD.replace('length = "290 mm"\n', ""), "hint", "no crowfoot sum without it"),
    (GOOD.replace("290 mm", "29 mm"), "warning", "29 mm is short: the end of the scale would take"),
    (GOOD.replace("calibration_due = 2027-11-30\n", ""), "hint", "12 months or 5000 pulls"),
    (GOOD.replace("0.5 N·m", "0.7 N·m"), "warning", "miss the end at 60.0"),
    (GOOD + SCALE.replace("N·m", "ft-lb"), "warning", "Look at the unit of each scale."),
    (GOOD.replace("click", "electronic"), "warning", "more than a quarter of what the wrench may be off"),
    (GOOD + '[[adapter]]\nid = "a"\noffset = "32 mm"\n', "hint", "nobody says who measured it"),
    (GOOD + '[[adapter]]\nid = "a"\noffset = "15 mm"\ndrive = "3/8 in"\n' + MEASURED, "warning", "short for a crowfoot"),
]  # fmt: skip


@pytest.mark.parametrize(("text", "severity", "says"), TOLD)
def test_what_is_hardly_right_is_told_and_still_loads(
    rack_in: Reader, text: str, severity: str, says: str
) -> None:
    problem = rack_in.one(text)
    assert problem.severity == severity
    assert says in problem.sentence()
    rack, _ = rack_in.read(HEAD + text)
    assert len(rack.wrenches) == 1
    assert len(rack.adapters) == text.count("[[adapter]]")


def test_a_short_crowfoot_on_a_small_drive_is_believed(rack_in: Reader) -> None:
    small = '[[adapter]]\nid = "a"\njaw = "10 mm"\noffset = "16 mm"\ndrive = "1/4 in"\n' + MEASURED
    assert rack_in.read(HEAD + GOOD + small)[1] == ()


def test_the_format_must_be_known(rack_in: Reader) -> None:
    for text, says in ((GOOD, "format is missing"), ("format = 2\n" + GOOD, "format 2 is not known here")):
        _, problems = rack_in.read(text)
        assert [says in problem.sentence() for problem in problems] == [True]


def test_an_empty_or_broken_or_missing_file_is_one_problem(rack_in: Reader) -> None:
    rack, problems = rack_in.read(HEAD)
    assert rack == Rack()
    assert "no wrench in this file" in problems[0].sentence()
    _, problems = rack_in.read(HEAD + "[[wrench]]\nid = W1\n")
    assert "not TOML" in problems[0].sentence()
    rack, problems = read_rack(rack_in.path.parent / "nowhere.toml")
    assert rack == Rack()
    assert "cannot be read" in problems[0].sentence()


def test_hidden_characters_of_a_rack_are_made_visible(rack_in: Reader) -> None:
    rack, _ = rack_in.read(HEAD + GOOD.replace('kind = "click"', 'kind = "click"\nmark = "red\\u001b[2J"'))
    assert rack.wrenches[0].mark == "red<U+001B>[2J"


def test_the_mend_of_a_jaw_with_a_word_behind_it_is_the_jaw(rack_in: Reader) -> None:
    flare = '[[adapter]]\nid = "a"\njaw = "17 mm flare"\noffset = "32 mm"\n'
    problem = rack_in.one(GOOD + flare + MEASURED)
    assert (problem.key, problem.mend) == ("adapter[1].jaw", 'Write jaw = "17 mm".')
