"""What the terminal can show and its user wants, by the variables of the process."""

from __future__ import annotations

import os
import subprocess
import sys
from pathlib import Path

import pytest

from torqref.screens.look import colours_of, look_of

XTERM = {"TERM": "xterm-256color"}

ROOT = Path(__file__).parents[2]


def test_no_color_means_no_colour_only_when_it_is_not_empty() -> None:
    # no-color.org: "when present and not an empty string (regardless of its value)"
    assert look_of({**XTERM, "NO_COLOR": "1"}, "utf-8").theme == "one colour"
    assert look_of({**XTERM, "NO_COLOR": ""}, "utf-8").theme == "dark"


@pytest.mark.parametrize(
    ("environment", "theme"),
    [
        ({"TERM": "xterm-256color"}, "dark"),
        ({"TERM": "xterm-256color", "TORQREF_THEME": "light"}, "light"),
        ({"TERM": "xterm-256color", "TORQREF_THEME": "one-colour"}, "one colour"),
        ({"TERM": "xterm-256color", "TORQREF_THEME": "purple"}, "dark"),
    ],
)
def test_the_theme_fits_the_terminal(environment: dict[str, str], theme: str) -> None:
    assert look_of(environment, "utf-8").theme == theme


@pytest.mark.parametrize(
    ("term", "theme"), [("vt220", "one colour"), ("linux", "sixteen"), ("nobody-knows-this", "one colour")]
)
def test_a_terminal_that_only_terminfo_knows_gets_the_theme_it_can_show(term: str, theme: str) -> None:
    # terminfo: vt220 has no colours, the Linux console eight. It can be asked once a process only.
    code = "import os; from torqref.screens.look import look_of; print(look_of(os.environ, 'utf-8').theme)"
    environment = {"TERM": term, "PYTHONPATH": str(ROOT), "PATH": os.environ["PATH"]}
    said = subprocess.run(
        [sys.executable, "-c", code], env=environment, capture_output=True, text=True, check=True
    )
    assert said.stdout.strip() == theme


def test_more_than_256_colours_are_known_by_their_variable() -> None:
    assert colours_of({"TERM": "screen", "COLORTERM": "truecolor"}) == 1 << 24


@pytest.mark.parametrize(
    ("encoding", "ascii_only"), [("utf-8", False), ("UTF8", False), ("latin-1", True), ("ascii", True)]
)
def test_signs_are_kept_to_what_the_encoding_has(encoding: str, ascii_only: bool) -> None:
    assert look_of(XTERM, encoding).ascii_only is ascii_only


def test_ascii_and_bell_can_be_asked_for() -> None:
    look = look_of({**XTERM, "TORQREF_ASCII": "1", "TORQREF_BELL": "0"}, "utf-8")
    assert (look.ascii_only, look.bell) == (True, False)
    assert look.other_bell().bell
