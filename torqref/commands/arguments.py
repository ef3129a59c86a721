"""Arguments that several commands share, and a parser whose errors come back as our own."""

from __future__ import annotations

from argparse import SUPPRESS, ArgumentParser, RawDescriptionHelpFormatter
from pathlib import Path
from typing import Any, NoReturn


class UsageError(Exception):
    """The command line does not follow the usage of its command."""


class Parser(ArgumentParser):
    """argparse, but a wrong usage is raised with its message and nothing is printed or exited."""

    def __init__(self, *, prog: str, description: str) -> None:
        """The parser of one command, without abbreviated options."""
        super().__init__(
            prog=prog,
            description=description,
            allow_abbrev=False,
            formatter_class=RawDescriptionHelpFormatter,
        )

    def error(self, message: str) -> NoReturn:
        """Raise the message together with the usage."""
        raise UsageError(f"{self.prog}: {message}. `{self.prog} --help` says more.")


_SHARED: dict[str, dict[str, Any]] = {
    "specs": {
        "action": "append",
        "type": Path,
        "default": [],
        "metavar": "DIR",
        "help": "a further library folder",
    },
    "rack": {"type": Path, "metavar": "FILE", "help": "your wrenches and adapters"},
    "records": {"type": Path, "metavar": "DIR", "help": "where the records are kept"},
    "plain": {"action": "store_true", "help": "lines instead of screens"},
}


def add_shared(parser: Parser, *names: str) -> None:
    """Add the options that mean the same in every command; the help lists those that are named.

    Every command takes all of them, so that a script can pass the same ones everywhere.
    """
    parser.add_argument("--json", action="store_true", help="one JSON object on stdout")
    for name, settings in _SHARED.items():
        shown = settings["help"] if name in names else SUPPRESS
        parser.add_argument(f"--{name}", **{**settings, "help": shown})
