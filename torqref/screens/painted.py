"""A painted screen: one painter, a table of keys and a line to type on.

A screen says what lines to show (`picture`) and what each key does (`keys` and its `do_` methods); it
decides nothing about bolts.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import replace
from typing import TYPE_CHECKING

from textual import events
from textual.app import ComposeResult
from textual.screen import Screen

from torqref.screens.key import ENTER, LEAVE, MAIN, Key, Move, letter_of
from torqref.screens.line import Line
from torqref.screens.look import Look
from torqref.screens.painter import Painter
from torqref.screens.prompt import Prompt
from torqref.walk.bounce import AHEAD

if TYPE_CHECKING:
    from torqref.screens.app import TorqrefApp


class PaintedScreen(Screen[None], inherit_bindings=False):
    """A screen of one painter; subclasses give `picture`, `keys` and `help_lines`."""

    AUTO_FOCUS = None
    name_shown = ""
    # What enter does here, as the help says it.
    main_help = "or space: the main key, and a foot switch"
    # Whether the main key counts though it was pressed before the screen could be seen.
    main_ahead = True

    def __init__(self) -> None:
        """A screen with nothing typed."""
        super().__init__()
        self.seen_from: float | None = None
        self.taken = ""
        self.painter = Painter()
        self.prompt: Prompt | None = None
        self.message, self.refused = "", False
        self.spoken = self.lead = ""

    def compose(self) -> ComposeResult:
        """The painter alone."""
        yield self.painter

    # --- what a screen gives --------------------------------------------------------------------

    def picture(self, width: int, height: int) -> Sequence[Line]:
        """The lines to show in this room."""
        raise NotImplementedError

    def keys(self) -> Sequence[Key]:
        """The keys that work now."""
        return ()

    def moves(self) -> Sequence[Move]:
        """The keys without a character that work beside them, for the help."""
        return ()

    def help_lines(self) -> Sequence[str]:
        """What the help says about this screen, a sentence each."""
        return ()

    def sentence(self) -> str:
        """What is spoken of what is shown now; asked for only where there is a voice."""
        return ""

    def main(self) -> None:
        """The main key: enter, space or a foot switch."""

    def digit(self, character: str) -> None:
        """A digit, where no line is being typed."""

    def typed(self, character: str) -> bool:
        """A character that no key takes; True if the screen used it."""
        return False

    def special(self, name: str) -> bool:
        """A key without a character, such as `up` or `backspace`; True if the screen used it."""
        return False

    def answered(self, word: str, text: str) -> bool:
        """A typed line was entered; True where it was refused and can be mended: it stays to be typed on."""
        return False

    def leave(self) -> None:
        """The key to go back."""
        self.torqref.back()

    # --- what every screen does -----------------------------------------------------------------

    @property
    def torqref(self) -> TorqrefApp:
        """The app, with its context."""
        from torqref.screens.app import TorqrefApp

        app = self.app
        if not isinstance(app, TorqrefApp):
            raise TypeError("a painted screen belongs to a TorqrefApp")
        return app

    @property
    def look(self) -> Look:
        """How the screens look now."""
        return self.torqref.look

    def repaint(self) -> None:
        """Show the present state."""
        width, height = self.size
        if width and height:
            self.painter.show(tuple(self.picture(width, height)), self.look.theme)
            self._speak()

    def _speak(self) -> None:
        """Each new sentence is spoken once, behind what became of the screen before."""
        say = self.torqref.context.say
        sentence = self.sentence() if say is not None else ""
        if say is not None and sentence != self.spoken:
            from torqref.walk.speech import in_speech

            self.spoken = sentence
            say(f"{in_speech(self.lead)}; {sentence}" if self.lead else sentence)
            self.lead = ""

    def ask(self, word: str, label: str, text: str = "") -> None:
        """Ask for a line; `answered` gets it."""
        self.message = ""
        self.prompt = Prompt(label=label, word=word, text=text)

    def on_resize(self, event: events.Resize) -> None:
        """Another size: everything is laid out anew."""
        if self.seen_from is None:
            self.seen_from = event.time
        self.repaint()

    def on_screen_resume(self) -> None:
        """Back from another screen: the look may have changed."""
        self.repaint()

    def on_paste(self, event: events.Paste) -> None:
        """A paste is typed text, and its first line only."""
        event.stop()
        text = (event.text.splitlines() or [""])[0]
        if self.prompt is not None:
            self.prompt = self.prompt.typed(text)
            self.repaint()

    async def on_key(self, event: events.Key) -> None:
        """Hand a key to whatever it means now, then show what became of it."""
        event.stop()
        event.prevent_default()
        if self.torqref.hands_on(self, event):
            return
        self.taken = event.key
        ahead = self.seen_from is None or event.time < self.seen_from
        if ahead and event.key in MAIN and not self.main_ahead:
            self.message = AHEAD
        else:
            self.take(event)
        if self.is_attached and self.is_current:
            self.repaint()

    def take(self, event: events.Key) -> None:
        """One key press."""
        if event.key == "ctrl+l":
            self.painter.refresh()
        elif event.key == "ctrl+z":
            self.app.action_suspend_process()
        elif self.prompt is not None:
            self._type(event, self.prompt)
        elif event.key in LEAVE:
            self.leave()
        elif event.key not in ENTER or event.key in MAIN:  # a line feed behind a return is nothing more
            self._press(event)

    def _press(self, event: events.Key) -> None:
        self.message = ""
        letter = letter_of(event)
        acts: Mapping[str, Key] = {key.letter: key for key in self.keys()}
        if event.key in MAIN:
            self.main()
        elif letter in acts:
            self.act(acts[letter])
        elif letter and letter in "0123456789":
            self.digit(letter)
        elif letter:
            self.typed(event.character or letter)
        else:
            self.special(event.key)

    def _type(self, event: events.Key, prompt: Prompt) -> None:
        if event.key in ENTER:
            self.prompt = None
            if self.answered(prompt.word, prompt.text.strip()) and prompt.text.strip():
                self.prompt = replace(prompt, is_kept=True)
        elif event.key in ("escape", *LEAVE):
            self.prompt = None
        elif event.key == "backspace":
            self.prompt = prompt.erased()
        elif event.key == "ctrl+u":
            self.prompt = Prompt(label=prompt.label, word=prompt.word)
        elif event.character:
            self.prompt = prompt.typed(event.character)

    def act(self, key: Key) -> None:
        """Do what a key of this screen stands for."""
        getattr(self, f"do_{key.act}")()

    def do_help(self) -> None:
        """The help of this screen."""
        told = {"keys": tuple(self.keys()), "moves": tuple(self.moves()), "lines": tuple(self.help_lines())}
        self.torqref.show("help", main=self.main_help, **told)

    def do_bell(self) -> None:
        """Bell on or off."""
        self.torqref.look = self.look.other_bell()
        self.message, self.refused = f"bell {'on' if self.look.bell else 'off'}", False

    def do_leave(self) -> None:
        """Go back."""
        self.leave()

    def do_theme(self) -> None:
        """The next theme."""
        self.torqref.look = self.look.next_theme()
