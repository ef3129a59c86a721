"""What the commands work with: the folders, the library, the rack and the clock of this call."""

from __future__ import annotations

import os
from argparse import Namespace
from collections.abc import Sequence
from datetime import datetime
from pathlib import Path
from typing import TYPE_CHECKING

from torqref.commands.console import Console
from torqref.commands.home import own_home
from torqref.document.escape import escape
from torqref.library.folder import shipped_folder

if TYPE_CHECKING:
    from torqref.document.problem import Problem
    from torqref.library.group import Group
    from torqref.library.shelf import Shelf
    from torqref.walk.opening import Request
    from torqref.wrench.rack import Rack


def library_folders(options: Namespace) -> tuple[Path, ...]:
    """The shipped library, the user's own, and the folders named, in this order."""
    own = own_home().specs
    return (shipped_folder(), *((own,) if os.path.isdir(own) else ()), *options.specs)


def shelf_of(options: Namespace) -> Shelf:
    """Every group of the library."""
    from torqref.library.shelf import read_shelf

    return read_shelf(library_folders(options))


def group_of(identity: str, options: Namespace, console: Console) -> Group | None:
    """One group, with its file's problems told; None and the nearest names where there is none."""
    from torqref.library.shelf import find_group

    group, problems = find_group(identity, library_folders(options))
    serious = [problem for problem in problems if problem.severity == "error"]
    if group is None:
        if not console.as_json:
            console.problems(serious)
        console.deny(_not_found(identity, options, serious))
    else:
        tell_faulty_files(serious, console)
    return group


def tell_faulty_files(problems: Sequence[Problem], console: Console) -> None:
    """One line a file: whoever walks a good group need not read about the bad ones beside it.

    How many there are is not said: to open one group the others of its file are not read.
    """
    for file in dict.fromkeys(problem.file for problem in problems) if not console.as_json else ():
        console.tell(f"{file} has errors, its other groups are here; `torqref check {file}` tells them.")


def _not_found(identity: str, options: Namespace, problems: Sequence[Problem]) -> str:
    from torqref.document.nearest import nearest

    near = nearest(identity, shelf_of(options).groups)
    mend = f"Did you mean {near}?" if near else "`torqref find` lists the groups."
    broken = " Its file has errors, see above." if problems else ""
    return f'no group "{escape(identity)}" that can be walked.{broken} {mend}'


def rack_of(options: Namespace, console: Console) -> Rack | None:
    """The rack named, else the user's own, else an empty one; None where the one named has errors."""
    from torqref.wrench.rack import Rack, read_rack

    path = options.rack or own_home().rack
    if options.rack is None and not os.path.isfile(path):
        return Rack()
    rack, problems = read_rack(path)
    if not console.as_json:
        console.problems(problems)
    unreadable = not rack.wrenches and any(problem.severity == "error" for problem in problems)
    if unreadable and options.rack is not None:
        console.deny(f"no wrench can be read from {escape(str(path))}.")
        return None
    return rack


def records_folder(options: Namespace) -> Path:
    """Where the records are kept."""
    return options.records or own_home().records


def missing_records(options: Namespace) -> tuple[Problem, ...]:
    """A folder of records that was named and is not there; a new user's own one need not be there yet."""
    from torqref.walk.archive import missing_folder

    return missing_folder(options.records) if options.records else ()


def request_of(options: Namespace) -> Request:
    """What the options say about the record of a walk or a job; a job has no walk for practice."""
    from torqref.walk.opening import Request

    return Request(
        folder=records_folder(options),
        bay=bay(),
        work_order=options.work_order,
        by=options.by,
        new=options.new,
        practice=getattr(options, "practice", False),
    )


def clock() -> datetime:
    """The time, with its offset to UTC."""
    return datetime.now().astimezone()


def bay() -> str:
    """The name of this machine."""
    from platform import node

    return node()
