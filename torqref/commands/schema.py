"""`torqref schema`: the JSON Schema of library, rack and job files, for editors and other programs."""

from __future__ import annotations

from argparse import Namespace
from pathlib import Path

from torqref.commands.arguments import Parser, add_shared
from torqref.commands.console import Console

NAMES = ("library", "rack", "job")


_EPILOG = """\
  torqref schema library
  torqref schema rack wrenches.schema.json
"""


def add(parser: Parser) -> None:
    """The arguments of the command."""
    parser.epilog = _EPILOG
    parser.add_argument("name", metavar="NAME", help=f"one of: {', '.join(NAMES)}")
    parser.add_argument("file", metavar="FILE", nargs="?", type=Path, help="a new file to write it to")
    add_shared(parser)


def run(options: Namespace, console: Console) -> int:
    """Write the schema to the new file, or to stdout; exit code 1 where the file cannot be written."""
    if options.name not in NAMES:
        return console.misuse(f'torqref schema: "{options.name}" is not one of: {", ".join(NAMES)}')
    # The committed file is the contract: making it anew would load every reader.
    text = (schema_folder() / f"{options.name}.schema.json").read_text(encoding="utf-8")
    if options.file is None:
        console.say(text.rstrip("\n"))
        return 0
    from torqref.document.newfile import write_new

    problem = write_new(options.file, text)
    return console.deny(problem.sentence()) if problem else 0


def schema_folder() -> Path:
    """Where the committed schemas stand."""
    return Path(__file__).resolve().parent.parent / "library" / "schemas"
