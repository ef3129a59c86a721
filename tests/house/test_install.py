"""Wheel and source distribution build and install in a fresh environment; uninstalling leaves only the user's data."""

from __future__ import annotations

import os
import re
import subprocess
import sys
import zipfile
from dataclasses import dataclass
from pathlib import Path

import pytest

ROOT = Path(__file__).parents[2]
# What pip and the build say where no index can be reached or it does not have what is needed.
_NO_INDEX = re.compile(
    r"No matching distribution|Could not find a version|connection|Retrying|resolve host", re.I
)


@dataclass(frozen=True, slots=True)
class Environment:
    """A fresh virtual environment and a home of its own."""

    folder: Path
    home: Path

    def python(self, *words: str | Path, check: bool = True) -> subprocess.CompletedProcess[str]:
        return self._run(self.folder / "bin" / "python", *words, check=check)

    def torqref(self, *words: str | Path, lines: str = "") -> str:
        return self._run(self.folder / "bin" / "torqref", *words, lines=lines).stdout

    def _run(
        self, *words: str | Path, lines: str = "", check: bool = True
    ) -> subprocess.CompletedProcess[str]:
        kept = {name: value for name, value in os.environ.items() if not name.startswith(("PYTHON", "XDG_"))}
        done = subprocess.run(
            list(map(str, words)),
            input=lines,
            capture_output=True,
            text=True,
            cwd=self.home,
            env={**kept, "HOME": str(self.home), "PIP_NO_CACHE_DIR": "1"},
        )
        assert not check or done.returncode == 0, done.stdout + done.stderr
        return done

    def files(self) -> set[Path]:
        """Everything that is installed, without what Python compiles beside it."""
        return {path for path in self.folder.rglob("*") if path.is_file() and "__pycache__" not in path.parts}


def kept_in(home: Path) -> set[Path]:
    """Every file of a home; tools that pip calls may have left some there, too."""
    return {path for path in home.rglob("*") if path.is_file()}


def fresh(folder: Path) -> Environment:
    subprocess.run([sys.executable, "-m", "venv", folder], check=True, capture_output=True)
    home = folder.parent / f"{folder.name}-home"
    home.mkdir()
    return Environment(folder, home)


def or_skip(done: subprocess.CompletedProcess[str]) -> None:
    """Without an index nothing can be built in a fresh environment: that is said and is no failure."""
    if done.returncode and _NO_INDEX.search(done.stdout + done.stderr):
        pytest.skip(f"no index of packages can be reached: {done.stderr.strip().splitlines()[-1][:200]}")
    assert done.returncode == 0, done.stdout + done.stderr


@pytest.fixture(scope="module")
def built(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """A folder with the wheel and the source distribution of a clean copy of the sources."""
    folder = tmp_path_factory.mktemp("build")
    copy = folder / "sources"
    listed = subprocess.run(["git", "ls-files", "-z"], cwd=ROOT, capture_output=True, check=False)
    if listed.returncode:
        pytest.skip("the sources are no checkout, so what belongs to them is not known")
    for name in listed.stdout.decode().split("\0"):
        if name and (ROOT / name).is_file():
            (copy / name).parent.mkdir(parents=True, exist_ok=True)
            (copy / name).write_bytes((ROOT / name).read_bytes())
    maker = fresh(folder / "maker")
    or_skip(maker.python("-m", "pip", "install", "--quiet", "hatchling", check=False))
    maker.python("-c", f"import os; os.chdir({str(copy)!r}); from hatchling.build import *; "
                       f"build_sdist({str(folder)!r}); build_wheel({str(folder)!r})")  # fmt: skip
    return folder


@pytest.mark.slow
def test_the_wheel_holds_the_program_and_its_library_and_nothing_else(built: Path) -> None:
    (wheel,) = built.glob("*.whl")
    names = zipfile.ZipFile(wheel).namelist()
    tops = {name.split("/")[0] for name in names}
    assert all(top == "torqref" or top.endswith(".dist-info") for top in tops), tops
    assert "torqref/specs/brindle-24-engine-q.toml" in names
    assert "torqref/screens/app.tcss" in names
    assert "torqref/py.typed" in names
    assert not [name for name in names if "test" in name or name.endswith(".pyc")]


@pytest.mark.slow
@pytest.mark.parametrize("kind", ["*.whl", "*.tar.gz"])
def test_a_fresh_install_works_and_uninstalling_leaves_only_the_users_data(
    kind: str, built: Path, tmp_path: Path
) -> None:
    (package,) = built.glob(kind)
    here = fresh(tmp_path / "environment")
    or_skip(here.python("-m", "pip", "install", "--quiet", package, check=False))
    with_it, before = here.files(), kept_in(here.home)
    assert here.torqref("--version").startswith("torqref ")
    assert "exhaust-manifold" in here.torqref("find", "manifold")
    assert "10.8" in here.torqref("convert", "96 in-lb", "N·m")
    assert here.torqref("walk", "exhaust-manifold", "--plain", lines="\n\n").splitlines()[-1] == "paused"
    assert "exhaust-manifold" in here.torqref("record")
    assert "error" not in here.torqref("check")
    made = kept_in(here.home) - before
    assert {path.suffix for path in made} == {".walk"}, made
    here.python("-m", "pip", "uninstall", "--quiet", "--yes", "torqref")
    left = with_it & here.files()
    assert not [path for path in left if "torqref" in path.relative_to(here.folder).as_posix()]
    assert not [path for path in here.folder.rglob("torqref*") if path.is_file()]
    assert made <= kept_in(here.home)
