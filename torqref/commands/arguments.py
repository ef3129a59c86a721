"""Arguments that several commands share, and a parser whose errors come back as our own."""

from __future__ import annotations

from argparse import ArgumentParser, RawDescriptionHelpFormatter
from pathlib import Path
from typing import NoReturn


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


def add_shared(parser: Parser, *names: str) -> None:
    """Add options that mean the same in every command: specs, rack, records, plain; json always."""
    parser.add_argument("--json", action="store_true", help="one JSON object on stdout")
    if "specs" in names:
        parser.add_argument(
            "--specs", action="append", type=Path, default=[], metavar="DIR", help="a further library folder"
        )
    if "rack" in names:
        parser.add_argument("--rack", type=Path, metavar="FILE", help="your wrenches and adapters")
    if "records" in names:
        parser.add_argument("--records", type=Path, metavar="DIR", help="where the records are kept")
    if "plain" in names:
        parser.add_argument("--plain", action="store_true", help="lines instead of screens")
