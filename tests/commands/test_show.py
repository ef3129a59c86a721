"""`torqref show`: the card as text, JSON, page and picture."""

from __future__ import annotations

import json
from pathlib import Path

import pytest

from tests.commands.repair import Garage
from tests.sheets.folder import Page


@pytest.fixture
def garage(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Garage:
    return Garage(folder=tmp_path, monkeypatch=monkeypatch)


def test_the_card_is_written_as_a_page(garage: Garage) -> None:
    page = garage.folder / "card.html"
    assert garage.run("show", "valve-cover", "--html", str(page)) == []
    shown = Page(page.read_text(encoding="utf-8"))
    assert "82 in-lb" in shown.text
    assert "PRACTICE VALUES" in shown.text


def test_the_picture_says_practice_values_too(garage: Garage) -> None:
    picture = garage.folder / "card.svg"
    garage.run("show", "valve-cover", "--svg", str(picture))
    assert "PRACTICE VALUES" in picture.read_text(encoding="utf-8")


def test_for_a_script_the_file_written_is_named(garage: Garage) -> None:
    page = garage.folder / "card.html"
    assert json.loads(garage.run("show", "valve-cover", "--html", str(page), "--json")[0]) == {
        "written": str(page)
    }


def test_the_card_says_that_a_value_nearly_strips_its_hole(garage: Garage) -> None:
    text = (
        'format = 1\n[[group]]\nid = "lid"\nthread = "M8"\ncondition = "dry"\n'
        'parent = { material = "aluminium", engagement = "9 mm" }\n[[group.stage]]\ntorque = "24 N·m"\n'
    )
    (garage.folder / "lid.toml").write_text(text, encoding="utf-8")
    words = "estimate: 24 N·m loads 9 mm of cast aluminium to about 78 % of stripping"
    assert words in "\n".join(garage.run("show", "lid", "--specs", str(garage.folder)))
    page = garage.folder / "card.html"
    garage.run("show", "lid", "--specs", str(garage.folder), "--html", str(page))
    assert words in Page(page.read_text(encoding="utf-8")).text


def test_two_sheets_at_a_time_are_wrong_usage(garage: Garage) -> None:
    code, _ = garage.call("show", "valve-cover", "--html", "a.html", "--svg", "a.svg")
    assert code == 2
    assert "one sheet at a time" in garage.errors


def test_a_library_file_named_by_mistake_is_left_alone(garage: Garage) -> None:
    library = garage.folder / "mine.toml"
    library.write_text("format = 1\n", encoding="utf-8")
    code, _ = garage.call("show", "valve-cover", "--html", str(library))
    assert code == 1
    assert library.read_text(encoding="utf-8") == "format = 1\n"


def test_the_chart_of_two_units(garage: Garage) -> None:
    """The pairs are those of NIST SP 811: 1 lbf·in is 0.112 984 8 N·m."""
    said = garage.run("convert", "--chart", "in-lb", "Nm", "20", "200")
    assert said[0].split() == ["in-lb", "N·m"] * 3
    assert said[1].split()[:2] == ["20", "2.26"]
    answer = json.loads(garage.run("convert", "--chart", "in-lb", "Nm", "20", "200", "--json")[0])
    assert answer["rows"][-1] == ["200", "22.60"]
    page = garage.folder / "chart.html"
    garage.run("convert", "--chart", "in-lb", "Nm", "20", "200", "--html", str(page))
    assert Page(page.read_text(encoding="utf-8")).row("20")[1] == "2.26"


@pytest.mark.parametrize(
    ("words", "code", "answer"),
    [
        (("--chart", "in-lb", "furlong", "20", "200"), 1, "furlong"),
        (("--chart", "in-lb", "in-lb", "20", "200"), 1, "both columns would be in in-lb"),
        (("--chart", "in-lb", "Nm", "200", "20"), 1, "the smaller one"),
        (("--chart", "in-lb", "Nm", "x", "20"), 1, "x"),
        (("--html", "a.html"), 2, "--html belongs to --chart"),
        ((), 2, "no value is named"),
    ],
)
def test_a_chart_that_cannot_be_says_why(
    garage: Garage, words: tuple[str, ...], code: int, answer: str
) -> None:
    found, _ = garage.call("convert", *words)
    assert found == code
    assert answer in garage.errors
