"""The app: it shows one screen after the other and ends well; a screen is imported when first shown."""

from __future__ import annotations

import asyncio
import gc
import os
import signal
import sys
from collections.abc import Mapping
from importlib import import_module
from types import MappingProxyType
from typing import Any, ClassVar

from textual.app import App
from textual.events import Key
from textual.filter import LineFilter

from torqref.screens.context import Context
from torqref.screens.key import MAIN
from torqref.screens.look import Look
from torqref.screens.painted import PaintedScreen

# name: (module in torqref.screens, its class)
SCREENS: Mapping[str, tuple[str, str]] = MappingProxyType(
    {
        "walk": ("walk_screen", "WalkScreen"),
        "job": ("job_screen", "JobScreen"),
        "job walk": ("job_walk_screen", "JobWalkScreen"),
        "job standing": ("job_standing_screen", "JobStandingScreen"),
        "library": ("library_screen", "LibraryScreen"),
        "quick": ("quick_screen", "QuickScreen"),
        "convert": ("convert_screen", "ConvertScreen"),
        "crowfoot": ("crowfoot_screen", "CrowfootScreen"),
        "help": ("help_screen", "HelpScreen"),
        "why": ("why_screen", "WhyScreen"),
        "problems": ("problems_screen", "ProblemsScreen"),
        "record": ("record_screen", "RecordScreen"),
        "record text": ("record_text_screen", "RecordTextScreen"),
    }
)
# Signals that end the program: the terminal goes, or somebody asks it to go.
_ENDING = ("SIGTERM", "SIGHUP", "SIGINT")


def make_screen(name: str, **arguments: Any) -> PaintedScreen:
    """A screen by its name; its module is imported now.

    Args:
        name: a row of `SCREENS`.
        arguments: what the screen wants, by keyword.
    """
    module, kind = SCREENS[name]
    made = getattr(import_module(f"torqref.screens.{module}"), kind)(**arguments)
    if not isinstance(made, PaintedScreen):
        raise TypeError(f"{kind} is not a painted screen")
    return made


class TorqrefApp(App[int], inherit_bindings=False):
    """All screens over one context."""

    ENABLE_COMMAND_PALETTE = False
    CSS_PATH = "app.tcss"
    BINDINGS: ClassVar = []

    def __init__(self, context: Context, start: str, **arguments: Any) -> None:
        """An app that opens with one screen.

        Args:
            context: what comes from outside.
            start: name of the first screen.
            arguments: what that screen wants.
        """
        super().__init__(ansi_color=True)
        self.context = context
        self.look: Look = context.look
        self.start = (start, arguments)
        self.fault: BaseException | None = None
        self.last_words = ""

    def get_line_filters(self) -> list[LineFilter]:
        """None: the tones of a theme are chosen for the terminal, colour or not, before they get here."""
        return []

    def on_mount(self) -> None:
        """The first screen, and the signals that end the program."""
        if not self.is_headless:
            self._heed_signals()
        name, arguments = self.start
        self.show(name, **arguments)

    def _heed_signals(self) -> None:
        """Signals are taken on the loop, so that the terminal is put back before the program ends."""
        loop = asyncio.get_running_loop()
        for name in _ENDING:
            number = getattr(signal, name, None)
            if number is not None and os.name == "posix":
                loop.add_signal_handler(number, self.exit, 0)

    def show(self, name: str, **arguments: Any) -> PaintedScreen:
        """Show a screen over the present one."""
        screen = make_screen(name, **arguments)
        self.push_screen(screen)
        return screen

    def instead(self, name: str, **arguments: Any) -> PaintedScreen:
        """Show a screen in place of the present one, so that leaving it leads to where that one came from."""
        screen = make_screen(name, **arguments)
        self.switch_screen(screen)
        return screen

    def hands_on(self, screen: PaintedScreen, event: Key) -> bool:
        """A key that was pressed while a screen was opened or left belongs to the one that is shown now.

        The key that opened or left it, once more, is a bounce and goes nowhere; the main key is told on the
        screen that comes.
        """
        now = self.screen_stack[-1] if self.screen_stack else screen
        if now is not screen and (event.key in MAIN or event.key != screen.taken):
            later = Key(event.key, event.character)
            later.time = event.time
            now.post_message(later)
        return now is not screen

    def back(self) -> None:
        """To the screen before; from the first one out of the program."""
        if len(self.screen_stack) > 2:
            self.pop_screen()
        else:
            self.exit(0)

    def _fatal_error(self) -> None:
        """A fault of the program itself: what a person needs to know, and the trace in a file of its own."""
        self.fault = sys.exception()
        self.bell()
        self._close_messages_no_wait()


def run_app(start: str, context: Context, **arguments: Any) -> int:
    """Run the screens, beginning with one of them; returns the exit code.

    Args:
        start: a row of `SCREENS`.
        context: what comes from outside; a session in it is closed at the end.
        arguments: what the first screen wants beside the context.
    """
    app = TorqrefApp(context, start, **arguments)
    # The process starts without the collector of cycles; screens make cycles and stay for hours.
    gc.freeze()
    gc.enable()
    try:
        code = app.run(mouse=False)
    finally:
        if context.session is not None:
            context.session.close()
    if app.fault is not None:
        return tell_fault(app.fault, context)
    if app.last_words:
        sys.stdout.write(f"{app.last_words}\n")
    return code or 0


def tell_fault(fault: BaseException, context: Context) -> int:
    """Say that the program stopped by its own fault, and where the details are; returns the exit code."""
    import traceback

    trace = "".join(traceback.format_exception(fault))
    path = context.records / "fault.txt"
    try:
        context.records.mkdir(parents=True, exist_ok=True)
        path.write_text(trace, encoding="utf-8")
        where = f"Details for whoever mends it: {path}"
    except OSError:
        where = trace
    sys.stderr.write(
        "torqref stopped by a fault of its own. Every tick that was shown is on disk: "
        f"start it again and it goes on at the same bolt.\n{where}\n"
    )
    return 1
