"""Lines as speech reads them: what espeak-ng 1.51 made of the signs was heard, and is mended here."""

from __future__ import annotations

import re
import shutil
import subprocess

import pytest

from torqref.walk.speech import in_speech


@pytest.mark.parametrize(
    ("line", "said"),
    [
        ("SET 12.0 N·m", "set 12.0 newton metres"),
        ("bolt 1+9, TURN 90°", "bolt 1 and 9, turn 90 degrees"),
        ("spec 9–11 N·m", "spec 9 to 11 newton metres"),
        (
            "BELOW the window 80–97 in-lb: pull it again",
            "below the window 80 to 97 inch-pounds: pull it again",
        ),
        ("NEW nuts: used once only", "new nuts: used once only"),
        ("M8x1.25, 1/4 in drive", "M8 by 1.25, a quarter in drive"),
        ("1 h 20 min of 4 h", "1 hour 20 minutes of 4 hours"),
        ("hot coolant: under 40 °C", "hot coolant: under 40 °C"),
        ("ISO 6789", "ISO 6789"),
        ("2-3 times", "2-3 times"),
        ("wanted <= 0.05 mm", "wanted at most 0.05 millimetres"),
        ("wanted ≥12 mm", "wanted at least 12 millimetres"),
        ("due 2026-02-30", "due 2026-02-30"),
        ("5 mm, 0.03–0.13 mm", "5 millimetres, 0.03 to 0.13 millimetres"),
    ],
)
def test_a_line_is_put_into_words(line: str, said: str) -> None:
    assert in_speech(line) == said


@pytest.mark.skipif(shutil.which("espeak-ng") is None, reason="needs espeak-ng to hear it")
@pytest.mark.parametrize(
    ("line", "heard"),
    [
        ("SET 12 N·m", "nj'u:t@n m'i:t"),
        ("82 in-lb", "'IntSp'aUndz"),
        ("9–11 N·m", "n'aIn tU Il'Ev@n"),
        ("NEW nuts", "nj'u: n'Vts"),
        ("1/4 turn", "kw'O@t3 t'3:n"),
    ],
)
def test_a_speech_program_says_the_words(line: str, heard: str) -> None:
    done = subprocess.run(
        ["espeak-ng", "-q", "-x", "-v", "en-gb", in_speech(line)], capture_output=True, text=True, check=True
    )
    assert _bare(heard) in _bare(done.stdout), done.stdout


def _bare(phonemes: str) -> str:
    """Phonemes without stress and pauses, which change from version to version."""
    return re.sub(r"[\s'\",_:|;%2]", "", phonemes)
