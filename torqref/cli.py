"""The command line: finds the command, imports only its module, and hands the arguments over.

Results go to stdout, messages to stderr. Exit codes: 0 done, paused or due; 1 the answer is no;
2 wrong usage. Each command lives in `torqref/commands/` under its own name.
"""

from __future__ import annotations

import os
import sys
from io import TextIOWrapper

from torqref.commands.console import Console, OutputLost

# As `typing` has it, without the two milliseconds that its import costs.
TYPE_CHECKING = False
if TYPE_CHECKING:
    from argparse import Namespace

    from torqref.commands.arguments import Parser

# name: (module in torqref.commands, what it does)
COMMANDS: dict[str, tuple[str, str]] = {
    "library": ("library", "the screens: find, walk, convert; the same as no command at all"),
    "walk": ("walk", "walk a fastener group bolt by bolt, with a record"),
    "show": ("show", "the card of a group: value, order, conditions"),
    "find": ("find", "find groups by words, thread or value"),
    "convert": ("convert", "a torque in other units, exactly"),
    "crowfoot": ("crowfoot", "what to set when an adapter changes the lever"),
    "order": ("order", "a tightening order for a circle or rows, or a look at a drawn one"),
    "estimate": ("estimate", "a clamp load and torque where no value exists, loudly an estimate"),
    "wrench-check": ("wrench_check", "what a wrench should read under a weight at a measured arm"),
    "check": ("check", "look through library and rack files for mistakes"),
    "new": ("new", "a first library file from a few answers, with a diagram ready to fill"),
    "import": ("import_rows", "rows of a table of values (CSV) as a library file"),
    "schema": ("schema", "the JSON Schema of library, rack and job files"),
    "kit": ("kit", "what to lay out for a job, and what is missing"),
    "job": ("job", "a whole repair, from making safe to sign-off"),
    "record": ("record", "list, show and export walks"),
}
_ASKING = ("--help", "--version")
# Options that every command takes, and how many words each is.
_SHARED = {
    "--json": 1, "--plain": 1, "--words": 1, "--speak": 1, "--specs": 2, "--rack": 2, "--records": 2
}  # fmt: skip


def main(arguments: list[str] | None = None) -> int:
    """Run one command with these arguments, or with those of the process; returns the exit code."""
    words = list(sys.argv[1:] if arguments is None else arguments)
    _open_streams()
    console = Console(sys.stdout, sys.stderr, as_json="--json" in words)
    if isinstance(sys.stdin, TextIOWrapper):
        # Bytes that are no text are refused where a value is read, and never end a walk.
        sys.stdin.reconfigure(errors="surrogateescape")
    try:
        return _run(words, console)
    except BrokenPipeError:
        # The reader of the pipe has gone: nothing is left to say, and nobody to say it to.
        os.dup2(os.open(os.devnull, os.O_WRONLY), 1)
        return 0
    except OutputLost as error:
        os.dup2(os.open(os.devnull, os.O_WRONLY), 1)
        return console.deny(f"the answer could not be written: {error}. Send it to another place.")
    except KeyboardInterrupt:
        return 130


def _open_streams() -> None:
    """A stream that the caller closed, as some schedulers do, leads nowhere instead of being missing."""
    for name, mode in (("stdin", "r"), ("stdout", "w"), ("stderr", "w")):
        if getattr(sys, name) is None:
            setattr(sys, name, os.fdopen(os.open(os.devnull, os.O_RDWR), mode))


def _run(words: list[str], console: Console) -> int:
    words = _command_first(words)
    if not words or (words[0].startswith("--") and words[0] not in _ASKING):
        return _command("library", words, console)
    name, rest = words[0], words[1:]
    if name in ("-h", "--help", "help"):
        if rest and rest[0] in COMMANDS:
            return _command(rest[0], ["--help"], console)
        console.say(usage())
        return 0
    if name == "--version":
        from torqref import __version__

        console.say(f"torqref {__version__}")
        return 0
    if name not in COMMANDS:
        return _unknown(name, console)
    return _command(name, rest, console)


def _command_first(words: list[str]) -> list[str]:
    """Shared options may stand before the command: `--specs DIR walk GROUP`."""
    at = 0
    while at < len(words) and words[at] in _SHARED:
        at += _SHARED[words[at]]
    return (
        [words[at], *words[:at], *words[at + 1 :]]
        if at and words[at : at + 1] and words[at] in COMMANDS
        else words
    )


def _command(name: str, rest: list[str], console: Console) -> int:
    from importlib import import_module

    from torqref.commands.arguments import Parser, UsageError

    module = import_module(f"torqref.commands.{COMMANDS[name][0]}")
    parser = Parser(prog=f"torqref {name}", description=COMMANDS[name][1])
    module.add(parser)
    try:
        options = _parse(parser, rest)
    except UsageError as error:
        return console.misuse(str(error))
    return int(module.run(options, console))


def _parse(parser: Parser, rest: list[str]) -> Namespace:
    return parser.read([_true_minus(word) for word in rest])


def _true_minus(word: str) -> str:
    """A value such as -5Nm would be taken for an option: with a true minus sign it reaches the reading."""
    number = word[1:].removeprefix(".")
    return f"\N{MINUS SIGN}{word[1:]}" if word.startswith("-") and number[:1].isdigit() else word


def _unknown(name: str, console: Console) -> int:
    from torqref.document.escape import escape
    from torqref.document.nearest import nearest

    if name[:1].isdigit():
        return console.misuse(
            f'"{escape(name)}" is not a command. A value is read by: torqref convert "24 N·m"'
        )
    near = nearest(name, COMMANDS)
    mend = f"Did you mean `torqref {near}`?" if near else "`torqref --help` lists the commands."
    return console.misuse(f'"{escape(name)}" is not a command. {mend}')


def usage() -> str:
    """The list of commands."""
    width = max(len(name) for name in COMMANDS)
    rows = [f"  {name.ljust(width)}  {text}" for name, (_, text) in COMMANDS.items()]
    return "\n".join(
        [
            "torqref: bolt by bolt at the vehicle",
            "",
            *rows,
            "",
            "`torqref COMMAND --help` says more.",
            "Manufacturer's service information, local codes and licensed practice come first.",
        ]
    )
