"""Speech by the command of the system: begun and not waited for, silent where there is none."""

from __future__ import annotations

import time
from pathlib import Path

import pytest

from torqref.commands.voice import Voice, find_voice


def speaker(folder: Path) -> tuple[Voice, Path]:
    """A voice that writes down what it is told to say."""
    heard, program = folder / "heard", folder / "speak"
    program.write_text(f'#!/bin/sh\necho "$1" >> "{heard}"\n', encoding="utf-8")
    program.chmod(0o755)
    return Voice(command=(str(program),)), heard


def test_each_new_sentence_is_said_once(tmp_path: Path) -> None:
    voice, heard = speaker(tmp_path)
    for sentence in ("bolt one", "bolt one", "bolt two"):
        voice.say(sentence)
        voice.finish()
    assert heard.read_text(encoding="utf-8") == "bolt one\nbolt two\n"


def test_without_a_speech_command_there_is_silence(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setenv("PATH", str(tmp_path))
    voice = find_voice()
    voice.say("bolt one")
    assert voice.command == ()


def test_a_speech_command_that_does_not_start_is_given_up(tmp_path: Path) -> None:
    voice = Voice(command=(str(tmp_path / "gone"),))
    voice.say("bolt one")
    assert voice.command == ()


def stubborn(folder: Path) -> Voice:
    """A voice that does not heed being told to stop, and never ends."""
    program = folder / "stubborn"
    program.write_text("#!/bin/sh\ntrap '' TERM\nwhile :; do sleep 1; done\n", encoding="utf-8")
    program.chmod(0o755)
    return Voice(command=(str(program),))


def is_silent(voice: Voice) -> bool:
    """Whether every process of a voice ends and is reaped in good time."""
    deadline = time.monotonic() + 5
    while voice._ending and time.monotonic() < deadline:
        time.sleep(0.05)
        voice.hush()
    return not voice._ending


def test_a_speech_command_that_hangs_is_never_waited_for(tmp_path: Path) -> None:
    voice = stubborn(tmp_path)
    begun = time.monotonic()
    for number in range(6):
        voice.say(f"bolt {number}")
    voice.finish(limit=0.2)
    assert time.monotonic() - begun < 3
    assert is_silent(voice)


def test_no_process_is_left_behind_a_voice(tmp_path: Path) -> None:
    voice, _ = speaker(tmp_path)
    for number in range(5):
        voice.say(f"bolt {number}")
    voice.finish()
    assert is_silent(voice)
