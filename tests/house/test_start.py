"""What each command loads, seen in a fresh interpreter: nothing is imported before it is needed."""

from __future__ import annotations

import json
import subprocess
import sys
from pathlib import Path

import pytest

HEAVY = ("pint", "textual", "tomli", "rich", "asyncio")
PROBE = """
import contextlib, io, json, sys
from torqref.cli import main
with contextlib.redirect_stdout(io.StringIO()), contextlib.redirect_stderr(io.StringIO()):
    try:
        code = main(json.loads(sys.argv[1]))
    except SystemExit as stop:
        code = stop.code
print(json.dumps([code, sorted(sys.modules)]))
"""


def loaded(*words: str) -> tuple[int, set[str]]:
    """Exit code of a command, and which of the heavy libraries it loaded."""
    done = subprocess.run(
        [sys.executable, "-c", PROBE, json.dumps(words)],
        input="",
        capture_output=True,
        text=True,
        check=True,
    )
    code, modules = json.loads(done.stdout)
    return int(code or 0), {name for name in HEAVY if name in modules}


def test_help_loads_none_of_the_libraries() -> None:
    assert loaded("--help") == (0, set())


def test_a_mistyped_command_loads_none_of_them() -> None:
    assert loaded("wlak") == (2, set())


def test_the_help_of_a_command_loads_none_of_them() -> None:
    for name in ("walk", "convert", "crowfoot", "record", "check", "find", "show"):
        code, libraries = loaded(name, "--help")
        assert (name, code, libraries) == (name, 0, set())


def test_finding_and_showing_a_group_paint_no_screen() -> None:
    for words in (("find", "manifold"), ("show", "exhaust-manifold"), ("check",)):
        code, libraries = loaded(*words)
        assert (words, code, libraries - {"tomli", "pint"}) == (words, 0, set())


def test_finding_by_words_reads_no_group_in_full_and_a_small_library_has_no_index() -> None:
    code = (
        "import contextlib, io, sys; from torqref.cli import main\n"
        "with contextlib.redirect_stdout(io.StringIO()): code = main(['find', 'manifold'])\n"
        "print(code, *sys.modules)"
    )
    done = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True)
    result, *modules = done.stdout.split()
    assert result == "0"
    assert "torqref.library.listing" in modules
    unwanted = {
        "torqref.library.group",
        "torqref.quantity.reading",
        "torqref.library.memory",
        "json",
        "hashlib",
    }
    assert not unwanted & set(modules)


def test_a_card_loads_no_walk_and_no_wrench() -> None:
    code = "import sys\nfrom torqref.cli import main\nmain(['show', 'exhaust-manifold'])\nprint(*sys.modules)"
    done = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True)
    modules = set(done.stdout.split())
    assert "torqref.library.group" in modules
    assert not {"torqref.walk.plan", "torqref.walk.moment", "torqref.wrench.rack"} & modules


def test_a_conversion_reads_no_file_and_paints_no_screen() -> None:
    assert loaded("convert", "96 in-lb", "N·m") == (0, set())
    assert loaded("convert", "96 in-lb", "ozf·in") == (0, {"pint"})


def test_what_can_be_said_in_a_walk_is_loaded_after_the_first_paint() -> None:
    code = "import sys, torqref.commands.walk, torqref.screens.walk_screen\nprint(*sys.modules)"
    done = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True)
    assert not {"torqref.walk.word", "torqref.walk.reading", "torqref.library.reference"} & set(
        done.stdout.split()
    )


def test_a_walk_by_lines_paints_no_screen(tmp_path: Path) -> None:
    code, libraries = loaded("walk", "exhaust-manifold", "--plain", "--records", str(tmp_path))
    assert code == 0
    assert not libraries & {"textual", "rich", "asyncio"}


@pytest.mark.parametrize(
    "room", ["document", "quantity", "fastener", "pattern", "wrench", "library", "walk", "sheets"]
)
def test_no_room_of_the_core_loads_a_screen(room: str) -> None:
    folder = Path(__file__).parents[2] / "torqref" / room
    names = [f"torqref.{room}.{path.stem}" for path in folder.glob("*.py") if path.stem != "__init__"]
    code = f"import importlib, sys\nfor name in {names!r}: importlib.import_module(name)\nprint(*sys.modules)"
    done = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True)
    assert not {"textual", "rich", "asyncio", "pint"} & set(done.stdout.split())
