"""The checks of the library: every doubtful value is told at its line with its mend, and good ones are left alone."""

from __future__ import annotations

from pathlib import Path

import pytest

from torqref.document.problem import Problem
from torqref.library.check import check_file, check_files, check_group, check_shelf
from torqref.library.file import parse_library
from torqref.library.shelf import shipped_folder

HEAD = (
    'format = 1\nassembly = "Brindle"\n[source]\nkind = "shop"\ntitle = "own sheet"\nreference = "page 1"\n'
)
FAULTY = Path(__file__).parent / "faulty"
# Those under `whole` hold errors too: everything that is told of such a file, errors and all the rest.
TOLD = sorted((*(FAULTY / "told").glob("*.toml"), *(FAULTY / "whole").glob("*.toml")))


def told(tmp_path: Path, text: str) -> tuple[Problem, ...]:
    path = tmp_path / "sheet.toml"
    path.write_text(HEAD + '[[group]]\nid = "a"\n' + text, encoding="utf-8")
    return check_file(path)


def said(problems: tuple[Problem, ...]) -> str:
    return "\n".join(f"{problem.severity}: {problem.sentence()}" for problem in problems)


@pytest.mark.parametrize("path", TOLD, ids=lambda path: path.stem)
def test_a_doubtful_file_tells_each_remark_that_its_first_lines_name(path: Path) -> None:
    lines = path.read_text(encoding="utf-8").splitlines()
    expected = [line.removeprefix("# expects ") for line in lines if line.startswith("# expects ")]
    assert expected, "a doubtful file begins with the remarks it expects"
    found = [
        f"{problem.severity} {problem.line}: {problem.key}: {problem.message}. {problem.mend}"
        for problem in check_file(path)
    ]
    assert found == expected


def test_the_folder_of_doubtful_files_is_not_empty() -> None:
    assert len(TOLD) >= 6


# --- what must be left in peace -------------------------------------------------------------------

# Correct values that a naive check would flag. The values are common practice, no source.
IN_PEACE = {
    "bearing nut": 'thread = "M60x2"\npurpose = "adjust"\n[[group.stage]]\ntorque = "55 N·m"\n',
    "spark plug": 'thread = "M14x1.25"\npurpose = "seal"\n[[group.stage]]\ntorque = "25 N·m"\n',
    "gas sensor": 'thread = "M18x1.5"\npurpose = "sensor"\n[[group.stage]]\ntorque = "45 N·m"\n',
    "hollow bolt": 'thread = "M10x1"\npurpose = "seal"\n[[group.stage]]\ntorque = "18 N·m"\n',
    "flare nut": 'thread = "M14x1.5"\npurpose = "seal"\n[[group.stage]]\ntorque = "28 N·m"\n',
    "fan hub": 'thread = "M24x1.5 LH"\npurpose = "drive"\nleft_hand = true\n[[group.stage]]\ntorque = "65 N·m"\n',
    "plastic manifold with sleeves": 'thread = "M6"\nclass = "8.8"\ncondition = "dry"\n[[group.stage]]\ntorque = "8 N·m"\n',
    "plastic that is tapped": 'thread = "M6"\nclass = "8.8"\ncondition = "dry"\nparent = { material = "glass-filled plastic", engagement = "12 mm" }\n[[group.stage]]\ntorque = "8 N·m"\n',
    "plastic of any depth": 'thread = "M6"\nclass = "8.8"\ncondition = "dry"\nparent = { material = "plastic" }\n[[group.stage]]\ntorque = "8 N·m"\n',
    "head bolt": (
        'thread = "M12x1.75"\nclass = "10.9"\ncondition = "oiled"\none_time = "bolts"\n'
        '[[group.stage]]\ntorque = "60 N·m"\n[[group.stage]]\nangle = "180°"\n'
    ),
    "rounded one way": (
        'thread = "M12x1.75"\nclass = "10.9"\ncondition = "dry"\n[[group.stage]]\ntorque = "100 N·m (74 ft-lb)"\n'
    ),
    "rounded the other way": (
        'thread = "M12x1.75"\nclass = "10.9"\ncondition = "dry"\n[[group.stage]]\ntorque = "100 N·m (73 ft-lb)"\n'
    ),
    "a rounded range": (
        'thread = "M8"\nclass = "8.8"\ncondition = "dry"\n[[group.stage]]\ntorque = "20–25 N·m (15–18 ft-lb)"\n'
    ),
    "a rail of five clamps from its edge": (
        'thread = "M6"\nclass = "8.8"\ncondition = "dry"\nlayout = { rows = [5] }\norder = "1 2 3 4 5"\n'
        '[[group.stage]]\ntorque = "9 N·m"\n'
    ),
    "a first pass by hand": (
        'thread = "M8"\nclass = "8.8"\ncondition = "dry"\n[[group.stage]]\nhand = "until it touches"\n'
        '[[group.stage]]\ntorque = "5 N·m"\n[[group.stage]]\ntorque = "24 N·m"\n'
    ),
    "seat, back off, and less": (
        'thread = "M42x1.5"\npurpose = "adjust"\n[[group.stage]]\ntorque = "55 N·m"\n'
        '[[group.stage]]\nback_off = "half a turn"\n[[group.stage]]\ntorque = "20 N·m"\n'
    ),
}  # fmt: skip


@pytest.mark.parametrize("name", IN_PEACE)
def test_a_correct_value_that_looks_odd_is_left_in_peace(name: str, tmp_path: Path) -> None:
    assert said(told(tmp_path, IN_PEACE[name])) == ""


def test_the_shipped_library_gives_nothing_to_say() -> None:
    assert said(check_shelf((shipped_folder(),))) == ""


# --- slips that a library can see -----------------------------------------------------------------

BOLT = 'thread = "{thread}"\nclass = "8.8"\ncondition = "dry"\n[[group.stage]]\ntorque = "{torque}"\n'
# What happened, thread, what was typed, what was meant (slips of shops; common practice, no source).
SLIPS = (
    ("the unit of the line above", "M10x1.5", "35 in-lb", "35 ft-lb"),
    ("a lost decimal point", "M6x1", "105 N·m", "10.5 N·m"),
    ("foot-pounds for inch-pounds", "M6x1", "82 ft-lb", "82 in-lb"),
    ("a second unit with the wrong word", "M6x1", "9.3 N·m (82 ft-lb)", "82 in-lb"),
    ("the row of the next size", "M6x1", "24 N·m", "M8x1.25"),
)


@pytest.mark.parametrize(("slip", "thread", "typed", "meant"), SLIPS, ids=[slip for slip, *_ in SLIPS])
def test_a_typing_slip_is_told_with_what_was_meant(
    slip: str, thread: str, typed: str, meant: str, tmp_path: Path
) -> None:
    problems = told(tmp_path, BOLT.format(thread=thread, torque=typed))
    assert [problem.key for problem in problems] == ["group[1].stage[1].torque"], slip
    assert meant in problems[0].sentence()


def test_a_recheck_on_threadlocker_is_told(tmp_path: Path) -> None:
    stage = '[[group.stage]]\ntorque = "250 N·m"\n'
    group = f'thread = "M18x1.5"\nclass = "10.9"\ncondition = "threadlocker"\nthreadlocker = true\n{stage}{stage}recheck = true\n'
    assert "pulling breaks the cured bond" in said(told(tmp_path, group))


def test_a_value_that_a_second_person_read_too_is_only_a_hint(tmp_path: Path) -> None:
    verified = BOLT.format(thread="M10", torque="5 N·m").replace(
        "[[group.stage]]",
        'source = { entered_by = "A", verified_by = "B", verified_on = "2026-03-01" }\n[[group.stage]]',
    )
    before = told(tmp_path, BOLT.format(thread="M10", torque="5 N·m"))
    assert [problem.severity for problem in before] == ["warning"]
    assert [problem.severity for problem in told(tmp_path, verified)] == ["hint"]


def test_what_cannot_be_right_stays_an_error_however_often_it_was_read(tmp_path: Path) -> None:
    source = 'source = { entered_by = "A", verified_by = "B", verified_on = "2026-03-01" }\n'
    problems = told(tmp_path, source + BOLT.format(thread="M6", torque="105 N·m"))
    assert [problem.severity for problem in problems] == ["error"]


def test_a_value_that_already_holds_the_tool_says_nothing_about_the_fastener(tmp_path: Path) -> None:
    group = 'value_is = "setting with tool"\n' + BOLT.format(thread="M10", torque="5 N·m")
    assert said(told(tmp_path, group)) == ""


def test_the_same_remark_on_many_groups_is_said_once(tmp_path: Path) -> None:
    groups = "".join(
        f'[[group]]\nid = "g{n}"\nthread = "M8"\nclass = "8.8"\n[[group.stage]]\ntorque = "24 N·m"\n'
        for n in range(6)
    )
    path = tmp_path / "sheet.toml"
    path.write_text(HEAD + groups, encoding="utf-8")
    assert [problem.message for problem in check_file(path)] == [
        "dry or oiled is not said (and 5 times more in this file)"
    ]


def test_a_group_alone_is_told_with_its_file_and_line(tmp_path: Path) -> None:
    path = tmp_path / "sheet.toml"
    path.write_text(
        HEAD + '[[group]]\nid = "a"\n' + BOLT.format(thread="M10", torque="35 in-lb"), encoding="utf-8"
    )
    group = parse_library(path.read_bytes(), str(path)).groups[0]
    (problem,) = check_group(group)
    assert (problem.file, problem.line, problem.key) == (str(path), 13, "group[1].stage[1].torque")


# --- several files --------------------------------------------------------------------------------


def sheet(folder: Path, name: str, group: str, assembly: str = "Brindle") -> Path:
    path = folder / name
    path.write_text(HEAD.replace("Brindle", assembly) + f"[[group]]\n{group}", encoding="utf-8")
    return path


def cover(identity: str, torque: str, more: str = "") -> str:
    return f'id = "{identity}"\nname = "Front cover"\n{more}' + BOLT.format(thread="M8", torque=torque)


def test_values_that_differ_by_the_factor_of_a_unit_are_told(tmp_path: Path) -> None:
    one = sheet(tmp_path, "one.toml", cover("front-cover", "24 N·m"))
    two = sheet(tmp_path, "two.toml", cover("cover-front", "24 ft-lb"))
    (problem,) = check_files((one, two))
    assert (problem.file, problem.line, problem.severity) == (str(two), 14, "warning")
    assert problem.message == (
        f'24 ft-lb here and 24 N·m for "front-cover" in {one}: '
        "they differ by the factor of ft-lb and N·m, so one unit is wrong"
    )


def test_a_contradiction_without_an_explanation_is_told_too(tmp_path: Path) -> None:
    one = sheet(tmp_path, "one.toml", cover("front-cover", "20 N·m"))
    two = sheet(tmp_path, "two.toml", cover("cover-front", "25 N·m"))
    (problem,) = check_files((one, two))
    assert problem.message == f'25 N·m here and 20 N·m for "front-cover" in {one}'


def test_a_duplicate_is_a_hint(tmp_path: Path) -> None:
    one = sheet(tmp_path, "one.toml", cover("front-cover", "24 N·m"))
    two = sheet(tmp_path, "two.toml", cover("cover-front", "24 N·m"))
    assert [problem.severity for problem in check_files((one, two))] == ["hint"]


@pytest.mark.parametrize(
    ("more", "assembly"),
    [('applies = { engine = ["R"] }\n', "Brindle"), ("", "Other truck")],
    ids=["another engine", "another assembly"],
)
def test_two_values_for_two_things_are_left_in_peace(more: str, assembly: str, tmp_path: Path) -> None:
    one = sheet(tmp_path, "one.toml", cover("front-cover", "18 N·m", 'applies = { engine = ["Q"] }\n'))
    two = sheet(tmp_path, "two.toml", cover("cover-front", "25 N·m", more), assembly)
    assert check_files((one, two)) == ()


def test_a_value_that_stands_in_front_of_another_one_is_compared_with_it(tmp_path: Path) -> None:
    for name, torque in (("one", "24 N·m"), ("two", "24 in-lb")):
        (tmp_path / name).mkdir()
        sheet(tmp_path / name, "sheet.toml", cover("front-cover", torque))
    problems = check_shelf((tmp_path / "one", tmp_path / "two"))
    assert "the factor of in-lb and N·m" in said(problems)


def test_a_rack_is_checked_too(tmp_path: Path) -> None:
    path = tmp_path / "wrenches.toml"
    path.write_text('format = 1\n[[wrench]]\nid = "W1"\nkind = "clik"\n', encoding="utf-8")
    problems = check_files((path,))
    assert any(
        '"clik" is not known here. Did you mean "click"?' in problem.sentence() for problem in problems
    )


def test_a_job_file_is_checked_as_one(tmp_path: Path) -> None:
    path = tmp_path / "head.job.toml"
    path.write_text('format = 1\njob = "a"\n[[step]]\nd0 = "x"\n', encoding="utf-8")
    (problem,) = check_files((path,))
    assert "a step has no kind of step" in problem.message
    (tmp_path / "sheet.toml").write_text(HEAD, encoding="utf-8")
    assert [each.file for each in check_shelf((tmp_path,))] == [str(tmp_path / "sheet.toml")]


# --- slips of whoever types a page ----------------------------------------------------------------

M8 = 'thread = "M8"\nclass = "8.8"\ncondition = "dry"\n'
TYPED = {
    "a kind of stage with a letter wrong": (
        M8 + '[[group.stage]]\ntorqe = "24 N·m"\n',
        "error: {}:12: group[1].stage[1]: a stage has no kind of stage, expected exactly one kind. "
        'Did you mean "torque" and not "torqe"?',
    ),
    "a left-hand thread that is said to be none": (
        'thread = "M24x1.5 LH"\nleft_hand = false\ncount = 1\n[[group.stage]]\ntorque = "65 N·m"\n',
        "left_hand = false, and the thread is",
    ),
    "limits that are not those of the window": (
        M8 + '[[group.stage]]\ntorque = "22–26 N·m"\nwindow = "20–28 N·m"\n',
        "22–26 N·m has limits of its own, other than 20–28 N·m",
    ),
    "a place named twice": (
        M8 + 'places = ["left", "left"]\n[[group.stage]]\ntorque = "24 N·m"\n',
        '"left" stands twice among the places',
    ),
    "degrees without their sign": (
        M8 + 'one_time = "bolts"\n[[group.stage]]\ntorque = "24 N·m"\n[[group.stage]]\nangle = "90"\n',
        '"90" has no unit; an angle is expected. Write one of: 90°; 90 turn; 90 flats.',
    ),
    "a digit too much in an angle": (
        M8 + 'one_time = "bolts"\n[[group.stage]]\ntorque = "24 N·m"\n[[group.stage]]\nangle = "900°"\n',
        "hint: {}:16: group[1].stage[2].angle: 900° after a torque is two and a half turns",
    ),
    "a recheck on what the condition calls threadlocker": (
        M8.replace("dry", "clean, threadlocker") + '[[group.stage]]\ntorque = "24 N·m"\nrecheck = true\n',
        "pulling breaks the cured bond. Leave the recheck out; look at the mark only.",
    ),
    "a range with a digit lost": (
        M8 + '[[group.stage]]\ntorque = "2-24 N·m"\n',
        "The range is wide, from 2 to 24",
    ),
}


@pytest.mark.parametrize("name", TYPED)
def test_a_slip_of_whoever_types_a_page_is_told(name: str, tmp_path: Path) -> None:
    text, expected = TYPED[name]
    assert expected.format(tmp_path / "sheet.toml") in said(told(tmp_path, text))


@pytest.mark.parametrize(
    "text",
    [
        M8.replace("dry", "no threadlocker") + '[[group.stage]]\ntorque = "24 N·m"\n',
        M8 + '[[group.stage]]\ntorque = "24 ± 2 N·m"\nwindow = "22–26 N·m"\n',
        'thread = "M24x1.5 LH"\nleft_hand = true\npurpose = "drive"\n[[group.stage]]\ntorque = "65 N·m"\n',
        M8 + 'one_time = "bolts"\n[[group.stage]]\ntorque = "24 N·m"\n[[group.stage]]\nangle = "270°"\n',
    ],
)
def test_what_only_looks_like_a_slip_is_left_in_peace(text: str, tmp_path: Path) -> None:
    assert said(told(tmp_path, text)) == ""


def test_a_folder_tells_all_of_a_group_that_cannot_be_walked(tmp_path: Path) -> None:
    text = HEAD + '[[group]]\nid = "a"\nthread = "M8"\n[[group.stage]]\ntorque = "24 N·m"\nwithin = "10"\n'
    (tmp_path / "sheet.toml").write_text(text, encoding="utf-8")
    assert [problem.key for problem in check_shelf((tmp_path,))] == [
        "group[1].condition", "group[1].stage[1].within",
    ]  # fmt: skip


# What is right in a group, and the fault that stands in the place of each.
WHOLE = {
    "source": 'source = { reference = "page 2" }\n',
    "thread": 'thread = "M8"\nclass = "8.8"\n',
    "condition": 'condition = "dry"\n',
    "one_time": 'one_time = "bolts"\n',
}


@pytest.mark.parametrize(
    ("right", "fault"),
    [
        ("source", 'source = { kind = "publishd" }\n'),
        ("thread", 'thred = "M8"\nclass = "8.8"\n'),
        ("condition", 'conditoin = "dry"\n'),
        ("one_time", 'one_tiem = "bolts"\n'),
        ("one_time", "one_time = 3\n"),
    ],
)
def test_what_follows_from_a_fault_is_no_message_of_its_own(tmp_path: Path, right: str, fault: str) -> None:
    group = "".join({**WHOLE, right: fault}.values())
    stages = '[[group.stage]]\ntorque = "24 N·m"\n[[group.stage]]\nangle = "90°"\n'
    problems = told(tmp_path, group + stages)
    assert [problem.severity for problem in problems] == ["error"], said(problems)
