"""What the screens work with: the clock, the folders and the tools, handed in from outside."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from datetime import datetime
from pathlib import Path
from typing import TYPE_CHECKING

from torqref.screens.look import Look
from torqref.wrench.rack import Rack

if TYPE_CHECKING:
    from torqref.walk.session import Session

NO_RACK = Rack()
USUAL_LOOK = Look()


@dataclass(frozen=True, slots=True, kw_only=True)
class Context:
    """Everything that comes from outside.

    Args:
        clock: gives the time with its offset to UTC.
        bay: the name of this machine.
        records: the folder of records.
        libraries: the library folders, in the order they are looked through.
        own_specs: the user's own library folder, where drafts go.
        rack: the wrenches and adapters at hand.
        by: who works, empty if unknown.
        work_order: number of the work order, empty for none.
        session: the walk to open at once, or None.
        notes: what deserves to be known at the start, a sentence each.
        look: how the screens look at the start.
        say: speaks a sentence, or None for silence.
    """

    clock: Callable[[], datetime]
    bay: str
    records: Path
    libraries: tuple[Path, ...] = ()
    own_specs: Path = Path()
    rack: Rack = NO_RACK
    by: str = ""
    work_order: str = ""
    session: Session | None = None
    notes: tuple[str, ...] = ()
    look: Look = USUAL_LOOK
    say: Callable[[str], None] | None = None
