"""A new file stands there whole or not at all, and nothing is ever written over."""

from __future__ import annotations

import os
from pathlib import Path

import pytest

from torqref.document.newfile import free_name, write_new


def test_the_file_and_its_folder_are_made(tmp_path: Path) -> None:
    path = tmp_path / "new" / "draft.toml"
    assert write_new(path, "a = 1\n") is None
    assert path.read_text(encoding="utf-8") == "a = 1\n"
    assert [entry.name for entry in path.parent.iterdir()] == ["draft.toml"]


def test_a_file_of_the_same_name_is_left_as_it_is(tmp_path: Path) -> None:
    path = tmp_path / "draft.toml"
    path.write_text("mine\n", encoding="utf-8")
    problem = write_new(path, "other\n")
    assert problem is not None
    assert "already" in problem.message
    assert path.read_text(encoding="utf-8") == "mine\n"
    assert [entry.name for entry in tmp_path.iterdir()] == ["draft.toml"]


def test_a_file_where_the_folder_should_be_is_told(tmp_path: Path) -> None:
    (tmp_path / "specs").write_text("", encoding="utf-8")
    problem = write_new(tmp_path / "specs" / "draft.toml", "a = 1\n")
    assert problem is not None
    assert problem.mend


def test_a_file_system_without_links_keeps_the_promise_too(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    def no_links(*_: object) -> None:
        raise OSError(95, "not supported")

    monkeypatch.setattr(os, "link", no_links)
    path = tmp_path / "draft.toml"
    assert write_new(path, "a = 1\n") is None
    assert write_new(path, "b = 2\n") is not None
    assert path.read_text(encoding="utf-8") == "a = 1\n"


def test_the_next_free_name_is_numbered(tmp_path: Path) -> None:
    (tmp_path / "draft.toml").touch()
    (tmp_path / "draft-2.toml").touch()
    assert free_name(tmp_path, "draft", ".toml") == "draft-3"
