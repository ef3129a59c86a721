"""The README shows what torqref really prints: each console block is run and compared."""

from __future__ import annotations

import os
import re
import shlex
import subprocess
import sys
from pathlib import Path

import pytest

from torqref.cli import COMMANDS
from torqref.commands import walk
from torqref.commands.arguments import Parser
from torqref.commands.plain import CARD, HELP, WHY
from torqref.walk import tally
from torqref.walk.command import COMMANDS as SAID

ROOT = Path(__file__).parents[2]
README = (ROOT / "README.md").read_text(encoding="utf-8")
BLOCKS = re.findall(r"^```console\n(.*?)^```$", README, re.MULTILINE | re.DOTALL)
# Times and the names made of them differ from run to run; everything else is compared to the letter.
_CHANGING = (
    (re.compile(r"\d{4}-\d\d-\d\dT\d\d:\d\d:\d\d(\.\d+)?[+-]\d\d:\d\d"), "<time>"),
    (re.compile(r"\d{8}-\d{6}(-\d+)?-(?=[a-z])"), "<stamp>-"),
    (re.compile(r"\d{4}-\d\d-\d\d \d\d:\d\d, in [\dhmin ]+"), "<due>"),
)


def commands_of(block: str) -> list[tuple[str, str]]:
    """Each command of a block with the output shown under it."""
    parts = re.split(r"^\$ (.*)\n", block, flags=re.MULTILINE)[1:]
    return list(zip(parts[::2], parts[1::2], strict=True))


def steady(text: str) -> str:
    for pattern, word in _CHANGING:
        text = pattern.sub(word, text)
    return "\n".join(line.rstrip() for line in text.rstrip().split("\n"))


@pytest.mark.parametrize("block", BLOCKS, ids=lambda block: block.split("\n")[0][2:50])
def test_a_console_block_shows_what_is_really_printed(block: str, tmp_path: Path) -> None:
    shim = tmp_path / "bin" / "torqref"
    shim.parent.mkdir()
    python = shlex.quote(sys.executable)
    shim.write_text(f'#!/bin/sh\nexec {python} -m torqref "$@"\n', encoding="utf-8")
    shim.chmod(0o755)
    environment = {
        **os.environ,
        "PATH": f"{shim.parent}{os.pathsep}{os.environ['PATH']}",
        "HOME": str(tmp_path),
        "PYTHONPATH": str(ROOT),
        "XDG_DATA_HOME": str(tmp_path / "data"),
        "XDG_CONFIG_HOME": str(tmp_path / "config"),
    }
    for command, shown in commands_of(block):
        done = subprocess.run(
            ["bash", "-c", command],
            stdin=subprocess.DEVNULL,
            stdout=subprocess.PIPE,
            stderr=subprocess.STDOUT,
            text=True,
            cwd=ROOT,
            env=environment,
        )
        assert steady(done.stdout) == steady(shown), command


def test_the_readme_has_blocks_and_names_every_command() -> None:
    assert len(BLOCKS) >= 5
    missing = [name for name in COMMANDS if f"torqref {name}" not in README and name != "library"]
    assert not missing


def test_the_two_commands_of_the_set_up_stand_where_ci_looks_for_them() -> None:
    for mark in ("first", "second"):
        assert re.search(rf"^<!-- {mark} -->\n```sh\n.+\n```$", README, re.MULTILINE)


def _first_cells(header: str) -> list[str]:
    """What stands in code in the first cell of each row of the table with this header."""
    _, _, after = README.partition(f"| {header} |")
    rows = after.partition("\n\n")[0].splitlines()[2:]
    return [code for row in rows for code in re.findall(r"`([^`]+)`", row.split("|")[1])]


def test_the_readme_lists_every_word_that_can_be_said_in_a_walk_and_no_other() -> None:
    listed = {text.split()[0] for text in _first_cells("Say | to")}
    # the main key is no word, and keep is said when the walk is over
    assert listed == {*SAID, HELP[0], CARD, WHY, "keep"} - {"done"}
    assert {word.split()[0] for word, _, _ in tally.WORDS} <= listed


def test_the_readme_lists_every_option_of_a_walk_and_no_other() -> None:
    parser = Parser(prog="walk", description="")
    walk.add(parser)
    known = {name for action in parser._actions for name in action.option_strings if name.startswith("--")}
    listed = {text.split()[0] for text in _first_cells("Option of `torqref walk` | means")}
    assert listed == known - {"--help"}
