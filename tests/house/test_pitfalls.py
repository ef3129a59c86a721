"""What has gone wrong in other programs of this kind, and what keeps it from going wrong here.

Screens, data files and records; those of numbers and units are in tests/quantity/test_pitfalls.py. The table
says which test elsewhere holds which of them, by its name, so that none can go away unnoticed.
"""

from __future__ import annotations

import ast
import json
import os
import subprocess
import sys
import unicodedata
from collections.abc import Iterator
from pathlib import Path

import pytest

from torqref.cli import main
from torqref.document.problem import Problem
from torqref.library.file import parse_library
from torqref.screens.key import MAIN
from torqref.walk.view import MARKS, STATES

ROOT = Path(__file__).parents[2]
Capture = pytest.CaptureFixture[str]

HELD_ELSEWHERE: dict[str, tuple[str, ...]] = {
    "15 colour alone means something": (
        "screens/test_terminal.py::test_no_color_sends_no_colour",
        "screens/test_theme.py::test_without_colours_what_is_now_is_still_unlike_what_is_done",
    ),
    "16 text is taken for markup": (
        "screens/test_walk_screen.py::test_text_from_a_file_is_never_taken_for_markup_or_obeyed",
        "screens/test_library_screen.py::test_brackets_escapes_and_turned_writing_in_names_are_only_text",
        "screens/test_quick_screen.py::test_brackets_are_only_text",
    ),
    "17 an escape from a file reaches the terminal": (
        "document/test_text.py::test_no_control_or_bidi_character_survives_escaping",
        "screens/test_quick_screen.py::test_a_pasted_escape_is_left_out_of_the_value",
    ),
    "18 a killed program leaves the terminal raw": (
        "screens/test_terminal.py::test_a_signal_ends_it_with_the_terminal_as_it_was",
        "screens/test_terminal.py::test_killed_in_the_middle_it_goes_on_at_the_same_bolt",
        "screens/test_terminal.py::test_a_fault_of_the_program_leaves_the_terminal_sane_and_says_where_to_look",
    ),
    "19 a full screen shuts readers of lines out": (
        "screens/test_terminal.py::test_plain_means_lines_in_any_terminal",
        "screens/test_terminal.py::test_a_terminal_that_can_do_nothing_gets_lines",
    ),
    "20 everything is imported at the start": (
        "house/test_start.py::test_help_loads_none_of_the_libraries",
        "house/test_start.py::test_a_conversion_reads_no_file_and_paints_no_screen",
        "house/test_start.py::test_no_room_of_the_core_loads_a_screen",
    ),
    "22 much is sent over a slow line": (
        "screens/test_terminal.py::test_over_a_slow_line_a_press_costs_few_bytes",
    ),
    "25 a small room cuts things off": (
        "screens/test_walk_panel.py::test_the_screen_is_filled_exactly",
        "screens/test_library_screen.py::test_no_room_is_too_small_or_too_large",
        "screens/test_terminal.py::test_a_storm_of_sizes_ends_in_the_right_picture",
    ),
    "26 a byte-order mark or another encoding": (
        "fuzz/test_encodings.py::test_what_editors_do_to_a_file_changes_nothing",
        "fuzz/test_encodings.py::test_what_cannot_be_read_is_told_with_its_file",
    ),
    "27 a message without its place": (
        "library/test_library_file.py::test_a_faulty_file_tells_each_fault_that_its_first_lines_name",
        "document/test_toml.py::test_a_syntax_error_has_line_and_column",
    ),
    "28 a file made to break the parser": (
        "fuzz/test_encodings.py::test_large_and_strange_files_are_told_in_good_time",
        "fuzz/test_long_texts.py::test_an_endless_text_is_told_in_a_line_that_fits_a_screen",
        "library/test_library_file.py::test_good_groups_load_beside_bad_ones",
    ),
    "30 every file is read at the start": (
        "library/test_sieve.py::test_opening_one_group_tells_nothing_of_the_faults_of_another",
        "house/test_start.py::test_a_conversion_reads_no_file_and_paints_no_screen",
    ),
    "31 a torn last line swallows the next one": (
        "walk/test_journal.py::test_a_journal_cut_at_every_byte_gives_a_prefix",
        "walk/test_journal.py::test_a_walk_cut_in_its_last_line_goes_on_at_the_bolt_that_was_not_kept",
        "walk/test_journal.py::test_damage_in_the_middle_is_told_with_its_line_and_nothing_is_added",
    ),
    "32 a tick that is not on the disk": (
        "walk/test_journal.py::test_a_killed_process_leaves_every_acknowledged_check_off",
        "walk/test_journal.py::test_on_a_full_disk_the_check_off_is_refused_and_not_shown",
        "walk/test_journal.py::test_two_walkers_on_one_walk_the_second_is_refused",
        "house/test_paths.py::test_a_full_disk_ends_in_words_and_ticks_nothing_that_is_not_kept",
    ),
}


@pytest.mark.parametrize("pitfall", HELD_ELSEWHERE)
def test_the_tests_that_hold_a_pitfall_are_there(pitfall: str) -> None:
    for place in HELD_ELSEWHERE[pitfall]:
        file, name = place.split("::")
        tree = ast.parse((ROOT / "tests" / file).read_text(encoding="utf-8"))
        assert name in {node.name for node in tree.body if isinstance(node, ast.FunctionDef)}, place


def trees(room: str) -> Iterator[tuple[Path, ast.AST]]:
    for path in sorted((ROOT / room).rglob("*.py")):
        yield path, ast.parse(path.read_text(encoding="utf-8"))


# --- screens ----------------------------------------------------------------------------------------


def test_pitfall_15_every_state_has_a_mark_and_a_word() -> None:
    assert set(MARKS) <= set(STATES)
    assert all(STATES.values())
    assert len(set(MARKS.values())) == len(MARKS), "two states share a mark"


def test_pitfall_16_no_widget_that_reads_markup_is_used_at_all() -> None:
    for path, tree in trees("torqref/screens"):
        for node in ast.walk(tree):
            module = node.module or "" if isinstance(node, ast.ImportFrom) else ""
            names = [alias.name for alias in node.names] if isinstance(node, ast.Import) else [module]
            banned = ("textual.widgets", "textual.markup", "textual.content", "rich.markup", "rich.console")
            assert not [name for name in names if name.startswith(banned)], path


NASTY = "\x1b]52;c;x\x07\x1b[2J\x7f\x85\x9b31m\u200b\u202e21\u2066\ufeff\u2028[/][bold]"


def hidden(text: str) -> set[str]:
    return {char for char in text if char != "\n" and unicodedata.category(char) in ("Cc", "Cf", "Zl", "Zp")}


def nasty_library(folder: Path) -> Path:
    """Every text of a group and its source holds what a terminal would obey."""
    nasty = json.dumps(NASTY)
    texts = "\n".join(
        f"{name} = {nasty}"
        for name in ("name", "thread", "class", "length", "socket", "condition", "one_time", "seen_from")
    )
    lists = "\n".join(f"{name} = [{nasty}]" for name in ("aliases", "cautions", "before", "after"))
    (folder / "sheet.toml").write_text(
        f'format = 1\nassembly = {nasty}\n[source]\nkind = "shop"\ntitle = {nasty}\nreference = {nasty}\n'
        f'[[group]]\nid = "lid"\n{texts}\n{lists}\nparts = [{{ name = {nasty} }}]\n'
        f"diagram = {json.dumps(f'{NASTY} 1   2')}\n"
        f'[[group.stage]]\nhand = {nasty}\n[[group.stage]]\ntorque = "24 N·m"\nhold = {nasty}\n',
        encoding="utf-8",
    )
    return folder


def test_pitfall_17_nothing_hidden_in_a_file_reaches_terminal_or_export(
    tmp_path: Path, capsys: Capture, monkeypatch: pytest.MonkeyPatch
) -> None:
    specs, records, paper = nasty_library(tmp_path), tmp_path / "records", tmp_path / "paper"
    paper.mkdir()
    shared, kept = ["--specs", str(specs)], ["--records", str(records)]
    lines = tmp_path / "lines"
    lines.write_text(f"\n\nnote {NASTY}\nfound {NASTY}\nskip 1 {NASTY}\n\n\n\n", encoding="utf-8")
    with open(lines, encoding="utf-8") as typed, monkeypatch.context() as sitting:
        sitting.setattr("sys.stdin", typed)
        walk = ["walk", "lid", "--plain", "--by", NASTY, "--work-order", NASTY]
        assert main([*walk, *shared, *kept]) == 0
    commands = [
        ["show", "lid", *shared], ["show", "lid", "--json", *shared], ["find", "lid", *shared],
        ["find", NASTY, *shared], ["find", "lid", "--json", *shared], ["check", *shared],
        ["check", "--json", *shared], ["show", NASTY, *shared], ["convert", NASTY], ["convert", NASTY, "--json"],
        ["estimate", NASTY, NASTY], ["crowfoot", NASTY, "--offset", NASTY, "--length", NASTY], ["order", NASTY],
        ["record", *kept], ["record", "lid", *kept], ["record", "--json", *kept], ["record", "--csv", *kept],
        ["record", "--jsonl", *kept], ["record", "lid", "--slip", *kept], ["record", NASTY, *kept],
        ["show", "lid", "--html", str(paper / "card.html"), *shared],
        ["show", "lid", "--svg", str(paper / "card.svg"), *shared],
        ["record", "lid", "--html", str(paper / "record.html"), *kept],
        ["record", "lid", "--svg", str(paper / "record.svg"), *kept],
        [NASTY], ["find", "--specs", NASTY], ["check", NASTY], ["walk", "lid", "--place", NASTY, *shared, *kept],
        ["walk", "lid", "--wrench", NASTY, *shared, *kept], ["walk", "--quick", NASTY, "--count", "2", *kept],
    ]  # fmt: skip
    for words in commands:
        main(words)
        told = capsys.readouterr()
        assert told.out + told.err, words
        assert not hidden(told.out + told.err), words
    for path in paper.iterdir():
        assert not hidden(path.read_text(encoding="utf-8")), path
    assert len(list(paper.iterdir())) == 4
    (journal,) = records.glob("*.walk")
    assert journal.read_text(encoding="utf-8").isascii()


def test_pitfall_18_the_mouse_stays_off() -> None:
    runs = [
        node
        for _, tree in trees("torqref")
        for node in ast.walk(tree)
        if isinstance(node, ast.Call) and isinstance(node.func, ast.Attribute) and node.func.attr == "run"
        and ast.unparse(node.func.value) == "app"
    ]  # fmt: skip
    assert len(runs) == 1
    assert ast.unparse(runs[0]) == "app.run(mouse=False)"


def test_pitfall_19_without_a_terminal_a_walk_is_lines(tmp_path: Path) -> None:
    words = ["walk", "exhaust-manifold", "--records", str(tmp_path)]
    done = subprocess.run(
        [sys.executable, "-m", "torqref", *words], input="\n", capture_output=True, text=True, cwd=ROOT
    )
    assert done.stdout.splitlines()[-1] == "paused"
    assert "\x1b" not in done.stdout


def test_pitfall_21_letters_digits_space_and_enter_do_everything() -> None:
    acts = [
        (path, ast.literal_eval(keyword.value))
        for path, tree in trees("torqref/screens")
        for node in ast.walk(tree)
        if isinstance(node, ast.Call) and ast.unparse(node.func) == "Key"
        for keyword in node.keywords
        if keyword.arg == "letter" and isinstance(keyword.value, ast.Constant)
    ]
    assert len(acts) > 10
    for path, letter in acts:
        assert len(letter) == 1, path
        assert letter.isascii(), path
        assert letter.isprintable(), path
    assert {"enter", "space"} <= set(MAIN)


def test_pitfall_22_nothing_is_animated() -> None:
    for path, tree in trees("torqref/screens"):
        calls = {ast.unparse(node.func) for node in ast.walk(tree) if isinstance(node, ast.Call)}
        assert not [call for call in calls if call.endswith(("animate", "set_interval_fast"))], path
    style = (ROOT / "torqref" / "screens" / "app.tcss").read_text(encoding="utf-8")
    assert "transition" not in style
    assert "animat" not in style


def test_pitfall_23_the_mark_of_a_state_is_one_cell_in_every_terminal() -> None:
    for state, mark in MARKS.items():
        assert mark.isascii(), state
        assert len(mark) == 1, state


def test_pitfall_24_no_test_of_a_screen_waits_for_seconds_to_pass() -> None:
    """A real terminal has to be waited for; everything else waits for a state."""
    real = {"terminal.py", "test_terminal.py"}
    for path, tree in trees("tests/screens"):
        calls = [ast.unparse(node.func) for node in ast.walk(tree) if isinstance(node, ast.Call)]
        assert path.name in real or not [call for call in calls if call.endswith("sleep")], path


# --- data files ---------------------------------------------------------------------------------------


def problems_of(value: str) -> tuple[Problem, ...]:
    text = f'format = 1\n[[group]]\nid = "a"\n[[group.stage]]\ntorque = {value}\n'
    return parse_library(text.encode(), "sheet.toml").problems


def test_pitfall_27_a_message_names_file_line_and_key() -> None:
    (problem,) = (problem for problem in problems_of('"24 Nmm/s"') if problem.severity == "error")
    assert problem.place() == "sheet.toml:5: group[1].stage[1].torque: "
    assert problem.mend


@pytest.mark.parametrize(
    "value", ["nan", "inf", "-inf", "0x10", "1_000", "1e400", "24", "24.5", "true", "1979-05-27"]
)
def test_pitfall_29_what_toml_calls_a_number_is_no_value(value: str) -> None:
    told = [problem for problem in problems_of(value) if problem.severity == "error"]
    assert told
    assert told[0].key == "group[1].stage[1].torque"
    assert "in quotes" in told[0].mend or "as text" in told[0].mend


@pytest.mark.parametrize("value", ["2,5", ".5", "08", "True", "24 N·m"])
def test_pitfall_29_what_is_no_toml_is_told_with_its_line(value: str) -> None:
    (problem,) = problems_of(value)
    assert problem.line == 5
    assert "not TOML" in problem.message


# --- records ------------------------------------------------------------------------------------------


def test_pitfall_32_every_press_is_synced_before_it_is_shown(
    tmp_path: Path, capsys: Capture, monkeypatch: pytest.MonkeyPatch
) -> None:
    """Whenever something is said, no byte is in the journal that was not synced."""
    synced: dict[int, int] = {}
    real = os.fsync

    def counted(handle: int) -> None:
        real(handle)
        synced[os.fstat(handle).st_ino] = os.fstat(handle).st_size

    checked = 0

    class Lines:
        def isatty(self) -> bool:
            return False

        given = 0

        def readline(self) -> str:
            nonlocal checked
            for journal in tmp_path.glob("*.walk"):
                found = journal.stat()
                assert synced.get(found.st_ino) == found.st_size
                checked += 1
            self.given += 1
            return "\n" if self.given < 15 else ""

    monkeypatch.setattr("os.fsync", counted)
    monkeypatch.setattr("sys.stdin", Lines())
    assert main(["walk", "exhaust-manifold", "--plain", "--records", str(tmp_path)]) == 0
    assert checked == 15
