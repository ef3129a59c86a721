"""The house rules that a syntax tree shows: who may import whom, and how long things may grow."""

from __future__ import annotations

import ast
from collections.abc import Iterator
from pathlib import Path

import pytest

PACKAGE = Path(__file__).parents[2] / "torqref"
# Lowest first: a room imports only itself and rooms before it.
ROOMS = (
    "document", "quantity", "fastener", "pattern", "wrench", "library",
    "walk", "sheets", "screens", "commands", "cli", "__main__",
)  # fmt: skip
ONLY = {"tomli": ("document",), "pint": ("quantity",), "textual": ("screens",), "rich": ("screens",)}
MODULES = sorted(PACKAGE.rglob("*.py"))


def _name(path: Path) -> str:
    return path.relative_to(PACKAGE.parent).with_suffix("").as_posix().replace("/", ".")


def _room(module: str) -> str:
    parts = module.split(".")
    return parts[1] if len(parts) > 1 else "__init__"


def _imports(path: Path) -> Iterator[str]:
    for node in ast.walk(ast.parse(path.read_text(encoding="utf-8"))):
        if isinstance(node, ast.Import):
            yield from (alias.name for alias in node.names)
        elif isinstance(node, ast.ImportFrom):
            assert node.level == 0, f"{path}: imports are written in full"
            yield node.module or ""


@pytest.mark.parametrize("path", MODULES, ids=_name)
def test_a_room_imports_only_itself_and_lower_rooms(path: Path) -> None:
    room = _room(_name(path))
    if room == "__init__":
        assert not list(_imports(path)), "the package itself imports nothing"
        return
    allowed = ROOMS[: ROOMS.index(room) + 1]
    ours = [name for name in _imports(path) if name.split(".")[0] == "torqref" and name != "torqref"]
    assert all(_room(name) in allowed for name in ours), f"{_name(path)} imports {ours}"


@pytest.mark.parametrize("path", MODULES, ids=_name)
def test_each_library_has_one_room_that_uses_it(path: Path) -> None:
    for name in _imports(path):
        rooms = ONLY.get(name.split(".")[0])
        assert rooms is None or _room(_name(path)) in rooms, f"{_name(path)} imports {name}"


@pytest.mark.parametrize("path", MODULES, ids=_name)
def test_no_module_outgrows_four_hundred_lines(path: Path) -> None:
    assert len(path.read_text(encoding="utf-8").splitlines()) <= 400


@pytest.mark.parametrize("path", MODULES, ids=_name)
def test_no_function_body_outgrows_fifty_lines(path: Path) -> None:
    for function in _functions(path):
        assert _body_length(function) <= 50, f"{_name(path)}.{function.name}"


def test_half_of_all_functions_stay_under_ten_lines() -> None:
    lengths = sorted(_body_length(function) for path in MODULES for function in _functions(path))
    assert lengths[len(lengths) // 2] < 10


def _functions(path: Path) -> list[ast.FunctionDef | ast.AsyncFunctionDef]:
    tree = ast.walk(ast.parse(path.read_text(encoding="utf-8")))
    return [node for node in tree if isinstance(node, ast.FunctionDef | ast.AsyncFunctionDef)]


def _body_length(function: ast.FunctionDef | ast.AsyncFunctionDef) -> int:
    body = function.body[1:] if ast.get_docstring(function) is not None else function.body
    return (body[-1].end_lineno or 0) - body[0].lineno + 1 if body else 0
