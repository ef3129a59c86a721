"""The card of a group as a page: everything of it, escaped, on one sheet."""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path

import pytest

from tests.sheets.folder import HOSTILE, Page
from torqref.library.shelf import read_shelf, shipped_folder
from torqref.sheets.card_page import card_page
from torqref.sheets.picture import group_picture

SHELF = read_shelf((shipped_folder(),)).groups


@pytest.mark.parametrize("identity", [name for name in SHELF if "brindle" in SHELF[name].file])
def test_every_group_of_the_demo_has_its_card(identity: str) -> None:
    group = SHELF[identity]
    shown = Page(card_page(group))
    assert group.name in shown.text
    assert shown.text.count("PRACTICE VALUES") >= 2
    assert all(stage.text in shown.text for stage in group.stages)
    assert all(caution.text in shown.text for caution in group.cautions)
    assert "The manufacturer's service information" in shown.text
    assert shown.tags.count("svg") == (1 if len(group.layout.positions) > 1 else 0)


def test_the_value_in_the_second_unit_stands_beside_the_printed_one() -> None:
    row = Page(card_page(SHELF["down-pipe-bracket"])).row("2")
    # 32, 35 and 38 ft-lb are 43.39, 47.45 and 51.52 N·m (NIST SP 811: 1.355 818 N·m); no limit is rounded outward
    assert row == ["2", "35 ft-lb; window 32–38 ft-lb", "47.5 (43.4–51.5) N·m"]


def test_lengths_and_sealant_are_told_by_position() -> None:
    shown = Page(card_page(SHELF["coolant-pump"]))
    assert shown.row("3 4 7 8")[2] == "25 mm"
    assert shown.row("9")[2] == "80 mm"
    assert "sealant on this thread" in shown.row("9")[5]


@pytest.mark.parametrize("text", HOSTILE, ids=range(len(HOSTILE)))
def test_hostile_words_stay_words(text: str) -> None:
    group = replace(SHELF["exhaust-manifold"], name=text, assembly=text, condition=text, aliases=(text,))
    shown = Page(card_page(group))
    assert not {"script", "img", "link"} & set(shown.tags)
    assert not any(char in card_page(group) for char in "\x00\x07\x1b\u200b\u202e")
    picture = group_picture(group, title=text)
    assert "<script" not in picture
    assert not any(char in picture for char in "\x00\x07\x1b\u200b\u202e")


def test_a_picture_file_is_a_document_of_its_own(tmp_path: Path) -> None:
    from xml.etree import ElementTree

    tree = ElementTree.fromstring(group_picture(SHELF["cylinder-head"], title="Head & block"))
    assert tree.tag == "{http://www.w3.org/2000/svg}svg"
    texts = [element.text for element in tree.iter() if element.tag.endswith("text")]
    assert {str(number) for number in range(1, 11)} <= set(texts)
    assert {"FRONT", "exhaust side", "inlet side", "Head & block"} <= set(texts)
