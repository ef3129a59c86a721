"""Arguments that several commands share, and a parser whose errors come back as our own."""

from __future__ import annotations

from argparse import SUPPRESS, ArgumentParser, Namespace, RawDescriptionHelpFormatter
from pathlib import Path
from typing import Any, NoReturn

from torqref.commands.console import fitting
from torqref.document.escape import escape


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
        end = "" if message.endswith("?") else "."
        raise UsageError(f"{self.prog}: {message}{end} `{self.prog} --help` says more.")

    def read(self, words: list[str]) -> Namespace:
        """The options among the words, which may stand before, between and behind the others.

        Raises:
            UsageError: the words do not follow the usage.
        """
        options, left = self.parse_known_args(words)
        if not left:
            return options
        if "--" not in words and not any(word.startswith("-") for word in left):
            # argparse gives up a list of words where an option stands in the middle of it.
            options, left = self.parse_known_intermixed_args(words)
        if left:
            self.error(self._too_much(left))
        return options

    def _too_much(self, left: list[str]) -> str:
        """Which words have no place here, and how they may have been meant."""
        message = f"unrecognized arguments: {escape(' '.join(left))}"
        first = left[0]
        if not first.startswith("-"):
            return f'{message}. A value with blanks stands in quotes, such as "38 mm"'
        from torqref.document.nearest import nearest

        near = nearest(first.partition("=")[0], self._option_string_actions)
        return f"{message}. Did you mean {near}?" if near else message

    def _print_message(self, message: str, file: Any = None) -> None:
        """The help as the terminal can carry it: some know no more than ASCII."""
        if message and file is not None:
            file.write(fitting(message, file))


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
    "words": {"action": "store_true", "help": "lines in words, as a speech program reads them well"},
    "speak": {"action": "store_true", "help": "each new step and stop is spoken, where the system can"},
}


def add_shared(parser: Parser, *names: str) -> None:
    """Add the options that mean the same in every command; the help lists those that are named.

    Every command takes all of them, so that a script can pass the same ones everywhere.
    """
    parser.add_argument("--json", action="store_true", help="one JSON object on stdout")
    for name, settings in _SHARED.items():
        shown = settings["help"] if name in names else SUPPRESS
        parser.add_argument(f"--{name}", **{**settings, "help": shown})
