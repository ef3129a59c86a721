"""Library files: good groups load beside bad ones, and every fault is told at its line with its mend."""

from __future__ import annotations

from fractions import Fraction
from pathlib import Path

import pytest

from torqref.library.check import check_file
from torqref.library.file import LibraryFile, parse_library, read_library_file
from torqref.library.group import Group
from torqref.library.shelf import find_group, read_shelf, shipped_folder

HEAD = 'format = 1\n[source]\nkind = "shop"\ntitle = "own sheet"\n'
FAULTY = sorted((Path(__file__).parent / "faulty").glob("*.toml"))


def library(text: str) -> LibraryFile:
    return parse_library((HEAD + text).encode(), "sheet.toml")


def group(text: str) -> Group:
    file = library(f'[[group]]\nid = "a"\n{text}')
    assert file.problems == (), [problem.sentence() for problem in file.problems]
    return file.groups[0]


def test_a_diagram_gives_the_order_of_its_numbers() -> None:
    found = group("diagram = '''\n FRONT\n 3 1\n 4 2\n'''\n[[group.stage]]\ntorque = \"24 N·m\"\n")
    assert found.order.labels == (1, 2, 3, 4)
    assert not found.order.generic
    assert found.layout.landmarks[0].text == "FRONT"


def test_a_circle_without_an_order_gets_a_generic_one_that_says_so() -> None:
    found = group('layout = { circle = 8 }\n[[group.stage]]\ntorque = "24 N·m"\n')
    assert found.order.generic
    assert sorted(found.order.labels) == list(range(1, 9))


def test_pairs_are_pulled_together() -> None:
    found = group('layout = { circle = 4 }\norder = "1+3 2+4"\n[[group.stage]]\ntorque = "24 N·m"\n')
    assert found.order.visits == ((1, 3), (2, 4))


def test_a_chain_means_the_same_as_its_stages_one_by_one() -> None:
    chained = group('count = 2\none_time = "bolts"\n[[group.stage]]\nchain = "30 N·m + 90° + 90°"\n')
    written = group(
        'count = 2\none_time = "bolts"\n[[group.stage]]\ntorque = "30 N·m"\n'
        '[[group.stage]]\nangle = "90°"\n[[group.stage]]\nangle = "90°"\n'
    )
    assert [(stage.kind, stage.torque, stage.angle) for stage in chained.stages] == [
        (stage.kind, stage.torque, stage.angle) for stage in written.stages
    ]


def test_the_first_printed_unit_is_the_spec_and_a_window_gives_its_limits() -> None:
    found = group('[[group.stage]]\ntorque = "24 N·m (18 ft-lb)"\nwindow = "22–26 N·m"\n')
    torque = found.stages[0].torque
    assert torque is not None
    assert [torque.low, torque.target, torque.high] == [Fraction(22), Fraction(24), Fraction(26)]
    assert torque.unit == "N·m"


def test_a_tolerance_may_stand_as_the_window_of_an_angle() -> None:
    found = group('one_time = "bolts"\n[[group.stage]]\nangle = "90°"\nwindow = "±5°"\n')
    angle = found.stages[0].angle
    assert angle is not None
    assert [angle.low, angle.aim, angle.high] == [Fraction(85), Fraction(90), Fraction(95)]


def test_a_back_off_turns_the_other_way_without_a_minus_sign() -> None:
    found = group('[[group.stage]]\ntorque = "55 N·m"\n[[group.stage]]\nback_off = "half a turn"\n')
    angle = found.stages[1].angle
    assert angle is not None
    assert angle.aim == -180


def test_a_wait_knows_when_it_is_over() -> None:
    found = group('[[group.stage]]\nwait = "cold again"\ndue = { hours = 4 }\n')
    due = found.stages[0].due
    assert due is not None
    assert due.minutes == Fraction(240)


def test_a_group_takes_over_the_source_of_its_file_and_may_say_more() -> None:
    found = group('source = { reference = "sheet 7" }\n[[group.stage]]\ntorque = "24 N·m"\n')
    assert (found.source.title, found.source.reference) == ("own sheet", "sheet 7")


def test_a_subset_has_its_own_thread_and_values() -> None:
    found = group(
        'count = 4\nthread = "M8"\n[[group.fastener]]\nat = "3-4"\nthread = "M6"\ntorque = "10 N·m"\n'
        '[[group.stage]]\ntorque = "24 N·m"\n'
    )
    assert [found.fastener(label).thread for label in (1, 2, 3, 4)] == ["M8", "M8", "M6", "M6"]


@pytest.mark.parametrize("path", FAULTY, ids=lambda path: path.stem)
def test_a_faulty_file_tells_each_fault_that_its_first_lines_name(path: Path) -> None:
    lines = path.read_text(encoding="utf-8").splitlines()
    expected = [line.removeprefix("# expects ") for line in lines if line.startswith("# expects ")]
    assert expected, "a faulty file begins with the messages it expects"
    told = [
        f"{problem.line}: {problem.key}: {problem.message}. {problem.mend}"
        for problem in check_file(path)
        if problem.severity == "error"
    ]
    assert told == expected


def test_the_folder_of_faulty_files_is_not_empty() -> None:
    assert len(FAULTY) >= 3


def test_good_groups_load_beside_bad_ones() -> None:
    file = read_library_file(Path(__file__).parent / "faulty" / "nine_faults.toml")
    assert [found.id for found in file.groups] == ["good"]


def test_a_later_folder_shadows_an_earlier_one_with_a_warning(tmp_path: Path) -> None:
    for name, value in (("one", "24"), ("two", "30")):
        folder = tmp_path / name
        folder.mkdir()
        text = f'{HEAD}[[group]]\nid = "a"\n[[group.stage]]\ntorque = "{value} N·m"\n'
        (folder / "sheet.toml").write_text(text, encoding="utf-8")
    folders = (tmp_path / "one", tmp_path / "two")
    shelf = read_shelf(folders)
    assert shelf.groups["a"].stages[0].text == "30 N·m"
    assert [problem.severity for problem in shelf.problems] == ["warning"]
    found, _ = find_group("a", folders)
    assert found is not None
    assert found.stages[0].text == "30 N·m"


def test_the_same_id_in_one_folder_is_an_error(tmp_path: Path) -> None:
    for name in ("one.toml", "two.toml"):
        text = f'{HEAD}[[group]]\nid = "a"\n[[group.stage]]\ntorque = "24 N·m"\n'
        (tmp_path / name).write_text(text, encoding="utf-8")
    assert [problem.severity for problem in read_shelf((tmp_path,)).problems] == ["error"]


def test_a_folder_that_is_not_there_is_told(tmp_path: Path) -> None:
    shelf = read_shelf((tmp_path / "nothing",))
    assert shelf.problems[0].mend == "Name a folder that holds library files (*.toml)."


def test_the_shipped_library_has_no_errors_and_at_least_eight_groups() -> None:
    shelf = read_shelf((shipped_folder(),))
    assert [problem.sentence() for problem in shelf.problems if problem.severity == "error"] == []
    assert len(shelf.groups) >= 8


def test_every_shipped_value_is_marked_as_what_it_is() -> None:
    shelf = read_shelf((shipped_folder(),))
    for found in shelf.groups.values():
        assert found.source.kind in ("invented", "published")
        assert found.source.invented == ("Brindle" in found.assembly)
