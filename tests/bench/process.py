"""Whole processes, timed from the start to the end, in turn with the baseline so that noise hits both."""

from __future__ import annotations

import os
import subprocess
import sys
import time
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from pathlib import Path
from statistics import median

ROOT = Path(__file__).parents[2]
# What pip writes into the folder of scripts, so that the start is measured as people have it.
_SCRIPT = (
    "import sys\nfrom torqref.__main__ import start\nif __name__ == '__main__':\n    sys.exit(start())\n"
)
# The largest memory of a process, told by the process itself: the system's count of a child begins
# with the size of its parent.
_PEAK = (
    "import atexit, os, sys\n"
    "def _tell():\n"
    "    try:\n"
    "        with open('/proc/self/status') as status:\n"
    "            kib = next(line for line in status if line.startswith('VmHWM')).split()[1]\n"
    "    except (OSError, StopIteration):\n"
    "        return\n"
    "    with open(os.environ['BENCH_PEAK'], 'w') as out:\n"
    "        out.write(kib)\n"
    "atexit.register(_tell)\n"
)


@dataclass(frozen=True, slots=True, kw_only=True)
class Runs:
    """The times of one command, in seconds, and the largest memory it had, in MiB."""

    seconds: tuple[float, ...]
    peak: float = 0.0

    @property
    def middle(self) -> float:
        """The median of the times."""
        return median(self.seconds)


def environment(folder: Path, **more: str) -> dict[str, str]:
    """Variables of a fresh user: no folder of his own, compiled modules kept in a folder of the run."""
    kept = {name: value for name, value in os.environ.items() if not name.startswith(("PYTHON", "XDG_"))}
    return {
        **kept,
        "HOME": str(folder / "home"),
        "XDG_CONFIG_HOME": str(folder / "config"),
        "XDG_DATA_HOME": str(folder / "data"),
        "XDG_CACHE_HOME": str(folder / "cache"),
        "PYTHONPATH": str(ROOT),
        "PYTHONPYCACHEPREFIX": str(folder / "compiled"),
        "TERM": "xterm-256color",
        "COLORTERM": "truecolor",
        **more,
    }


def script(folder: Path) -> list[str]:
    """The command `torqref` as an installed one starts."""
    path = folder / "torqref-script.py"
    path.write_text(_SCRIPT, encoding="utf-8")
    return [sys.executable, str(path)]


def python(code: str, *words: str) -> list[str]:
    """A baseline: a few lines of Python."""
    return [sys.executable, "-c", code, *words]


def in_turn(commands: Mapping[str, Sequence[str]], folder: Path, runs: int) -> dict[str, Runs]:
    """Run the commands one after the other, several times round; the first round only warms up."""
    times: dict[str, list[float]] = {name: [] for name in commands}
    for turn in range(runs + 1):
        for name, command in commands.items():
            seconds = _once(command, environment(folder))
            if turn:
                times[name].append(seconds)
    return {
        name: Runs(seconds=tuple(times[name]), peak=peak_of(command, folder))
        for name, command in commands.items()
    }


def _once(command: Sequence[str], variables: Mapping[str, str]) -> float:
    began = time.perf_counter()
    done = subprocess.run(
        command, env=variables, stdin=subprocess.DEVNULL, stdout=subprocess.DEVNULL, stderr=subprocess.PIPE
    )
    seconds = time.perf_counter() - began
    if done.returncode:
        raise SystemExit(f"{' '.join(command)} ended with {done.returncode}:\n{done.stderr.decode()}")
    return seconds


def peak_of(command: Sequence[str], folder: Path) -> float:
    """The largest memory of a command in MiB; 0 where the system does not tell."""
    hook = folder / "hook"
    hook.mkdir(exist_ok=True)
    (hook / "sitecustomize.py").write_text(_PEAK, encoding="utf-8")
    told = folder / "peak"
    told.unlink(missing_ok=True)
    variables = environment(folder, BENCH_PEAK=str(told))
    variables["PYTHONPATH"] = f"{hook}{os.pathsep}{ROOT}"
    _once(command, variables)
    return int(told.read_text()) / 1024 if told.exists() else 0.0
