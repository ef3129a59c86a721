"""Whether there is a terminal for screens, and what the screens of this call work with."""

from __future__ import annotations

import os
import sys
from argparse import Namespace
from collections.abc import Mapping
from pathlib import Path
from typing import TYPE_CHECKING

from torqref.commands.desk import bay, clock, library_folders, records_folder
from torqref.commands.home import own_home

if TYPE_CHECKING:
    from torqref.screens.context import Context
    from torqref.walk.session import Session
    from torqref.wrench.rack import Rack


def has_screen(environment: Mapping[str, str]) -> bool:
    """Whether there is a terminal on both sides that can show screens."""
    dumb = environment.get("TERM", "dumb") in ("", "dumb")
    return sys.stdin.isatty() and sys.stdout.isatty() and not (dumb and os.name == "posix")


def context_of(
    options: Namespace, rack: Rack, session: Session | None = None, notes: tuple[str, ...] = ()
) -> Context:
    """What the screens of this call work with."""
    from torqref.commands.voice import voice_of
    from torqref.screens.context import Context
    from torqref.screens.look import look_of

    voice = voice_of(options)
    return Context(
        clock=clock,
        bay=bay(),
        records=records_folder(options),
        libraries=library_folders(options),
        own_specs=own_specs(),
        rack=rack,
        by=options.by,
        work_order=options.work_order,
        session=session,
        notes=notes,
        look=look_of(os.environ, sys.stdout.encoding),
        say=voice.say if voice is not None else None,
    )


def own_specs() -> Path:
    """The user's own library folder, where drafts go; it may not be there yet."""
    return own_home().specs
