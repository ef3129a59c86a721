"""The sieve lets nothing through its holes: what a full search finds, the sieved search finds too."""

from __future__ import annotations

from pathlib import Path

from hypothesis import example, given
from hypothesis import strategies as st

from torqref.library.search import folded, search
from torqref.library.shelf import find_group, read_shelf, search_folders, shipped_folder
from torqref.library.sieve import ODD_LETTERS, may_hold_id, may_hold_words

HEAD = 'format = 1\n[source]\nkind = "shop"\ntitle = "own sheet"\n'
# Letters, signs and digits as pages have them, and the letters whose folding is odd.
TEXTS = st.text(alphabet="aAkKsSıéÉß9½²·×-–. °µΩ" + ODD_LETTERS, max_size=12)


def sheet(identity: str, value: str, name: str = "cover") -> str:
    return f'{HEAD}[[group]]\nid = "{identity}"\nname = "{name}"\n[[group.stage]]\ntorque = "{value}"\n'


def write(folder: Path, name: str, text: str) -> None:
    folder.mkdir(exist_ok=True)
    (folder / name).write_text(text, encoding="utf-8")


@given(before=TEXTS, word=TEXTS, after=TEXTS)
@example(before="", word="weiß", after="")
@example(before="", word="M8×1", after="")
def test_a_word_that_a_search_would_find_passes_the_sieve(before: str, word: str, after: str) -> None:
    data = f'name = "{before}{word}{after}"'.encode()
    for typed in (word, word.upper(), word.lower()):
        whole, part = folded([before + word + after]), folded([typed])
        if whole and part and part[0] in whole[0]:
            assert may_hold_words(data, part)


def test_every_letter_that_folds_into_ascii_is_known() -> None:
    odd = {
        chr(code)
        for code in range(128, 0x110000)
        if any(char.isascii() and char.isalnum() for char in chr(code).casefold())
    }
    assert odd == set(ODD_LETTERS)


def test_what_cannot_be_there_is_left_out() -> None:
    assert not may_hold_words(b'id = "pump"', ["head"])
    assert not may_hold_id(b'id = "pump"', "head")


def test_an_escape_may_be_anything() -> None:
    assert may_hold_words(b'id = "p\\u0075mp"', ["pump"])
    assert may_hold_id(b'id = "p\\u0075mp"', "pump")


def test_the_sieved_search_finds_what_the_full_one_finds() -> None:
    folder = shipped_folder()
    groups = read_shelf((folder,)).groups.values()
    words = ["manifold", "M8", "24 N·m", "truck", "exhaust manifold", "90°", "no such thing", "·", ""]
    for word in words:
        assert search_folders(word.split(), (folder,))[0] == search(word.split(), groups)


def test_a_group_in_front_hides_the_one_with_the_words(tmp_path: Path) -> None:
    one, two = tmp_path / "one", tmp_path / "two"
    write(one, "sheet.toml", sheet("lid", "24 N·m", "valve cover"))
    write(two, "sheet.toml", sheet("lid", "30 N·m", "sump"))
    assert [match.group.id for match in search_folders(["valve"], (one,))[0]] == ["lid"]
    assert search_folders(["valve"], (one, two))[0] == ()


def test_the_first_file_of_a_folder_hides_the_same_id_in_the_next(tmp_path: Path) -> None:
    write(tmp_path, "a.toml", sheet("lid", "24 N·m", "sump"))
    write(tmp_path, "b.toml", sheet("lid", "30 N·m", "valve cover"))
    found, problems = search_folders(["valve"], (tmp_path,))
    assert found == ()
    assert [problem.severity for problem in problems] == ["error"]


def test_files_that_cannot_hold_the_words_are_not_read(tmp_path: Path) -> None:
    write(tmp_path, "a.toml", sheet("lid", "24 N·m"))
    write(tmp_path, "broken.toml", "[[group]\n")
    found, problems = search_folders(["lid"], (tmp_path,))
    assert [match.group.id for match in found] == ["lid"]
    assert problems == ()
    assert search_folders([], (tmp_path,))[1] != ()


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


def test_a_row_of_a_reference_table_is_found_by_its_id_and_by_its_words(tmp_path: Path) -> None:
    rows = "rows = '''\nthread   class  torque\nM8x1.25  8.8    24 N·m\nM10x1.5  8.8    47 N·m\n'''\n"
    text = f"{HEAD}[[table]]\nid = 'bolts'\nname = 'Plain bolts'\n{rows}[[table.variant]]\nid = 'oiled'\n"
    write(tmp_path, "a.toml", f'{text}condition = "oil on the threads"\nless = "10 %"\n')
    for identity in (group.id for group in read_shelf((tmp_path,)).groups.values()):
        group, problems = find_group(identity, (tmp_path,))
        assert group is not None, identity
        assert (group.id, problems) == (identity, ())
    found, _ = search_folders(["21.6"], (tmp_path,))
    assert [match.group.condition for match in found] == ["oil on the threads"]
