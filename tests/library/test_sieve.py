"""The sieve lets nothing through its holes: a group that is in a file is found there by its id."""

from __future__ import annotations

from pathlib import Path

from torqref.library.shelf import find_group, read_shelf
from torqref.library.sieve import may_hold_id

HEAD = 'format = 1\n[source]\nkind = "shop"\ntitle = "own sheet"\n'


def sheet(identity: str, value: str, name: str = "cover") -> str:
    return f'{HEAD}[[group]]\nid = "{identity}"\nname = "{name}"\n[[group.stage]]\ntorque = "{value}"\n'


def write(folder: Path, name: str, text: str) -> None:
    folder.mkdir(exist_ok=True)
    (folder / name).write_text(text, encoding="utf-8")


def test_what_cannot_be_there_is_left_out() -> None:
    assert not may_hold_id(b'id = "pump"', "head")


def test_an_escape_may_be_anything() -> None:
    assert may_hold_id(b'id = "p\\u0075mp"', "pump")


def test_opening_one_group_tells_nothing_of_the_faults_of_another(tmp_path: Path) -> None:
    faulty = sheet("lid", "24 N·m") + '[[group]]\nid = "sump"\n[[group.stage]]\ntorque = "15 lbs"\n'
    write(tmp_path, "sheet.toml", faulty)
    group, problems = find_group("lid", (tmp_path,))
    assert group is not None
    assert problems == ()
    group, problems = find_group("sump", (tmp_path,))
    assert group is None
    assert [problem.line for problem in problems] == [13]


def test_an_id_twice_in_a_file_is_told_even_when_one_group_is_opened(tmp_path: Path) -> None:
    write(tmp_path, "sheet.toml", sheet("lid", "24 N·m") + sheet("lid", "30 N·m").removeprefix(HEAD))
    group, problems = find_group("lid", (tmp_path,))
    assert group is not None
    assert "already used" in problems[0].message


def test_a_row_of_a_reference_table_is_found_by_its_id_(tmp_path: Path) -> None:
    rows = "rows = '''\nthread   class  torque\nM8x1.25  8.8    24 N·m\nM10x1.5  8.8    47 N·m\n'''\n"
    text = f"{HEAD}[[table]]\nid = 'bolts'\nname = 'Plain bolts'\n{rows}[[table.variant]]\nid = 'oiled'\n"
    write(tmp_path, "a.toml", f'{text}condition = "oil on the threads"\nless = "10 %"\n')
    for identity in (group.id for group in read_shelf((tmp_path,)).groups.values()):
        group, problems = find_group(identity, (tmp_path,))
        assert group is not None, identity
        assert (group.id, problems) == (identity, ())
