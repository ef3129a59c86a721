"""The walk screen: one bolt, one number, one key; the core says what to show and what a key may do."""

from __future__ import annotations

import gc
from collections.abc import Callable, Sequence
from dataclasses import replace
from importlib import import_module

from textual import events
from textual.timer import Timer

from torqref.screens.bell import ring
from torqref.screens.key import Key, letter_of
from torqref.screens.line import Line
from torqref.screens.painted import PaintedScreen
from torqref.screens.pattern_panel import Pattern
from torqref.screens.walk_choice import Choosing, begin, bolt_of, offers, pick
from torqref.screens.walk_keys import ASKED, HELP, MAY_BE_EMPTY, keys_of
from torqref.screens.walk_panel import Showing, paint_walk
from torqref.walk import hole
from torqref.walk.second import second_unit_text
from torqref.walk.session import SIGNS, Reply, Session
from torqref.walk.verification import MARKS, check_kind
from torqref.walk.view import View, view

# How often the clock is looked at: a wait comes due, a pause grows long.
_LOOK_EVERY = 20.0
# Moments at which a digit is the first of a typed reading: an electronic wrench types like a keyboard.
_READINGS = {"bolt": "actual", "card": "actual", "measure": "measure", "second-check": "verify"}
_TOLD = {
    "undo": "taken back",
    "round": "the rest ticked as a whole; the record says so; u takes it back",
}


class WalkScreen(PaintedScreen):
    """A walk that is open, from its first stop to its end."""

    main_ahead = False
    # Keys that follow each other faster than this are typed by a wrench, not by a hand; in seconds.
    burst = 0.06

    def __init__(self, *, session: Session, notes: Sequence[str] = ()) -> None:
        """Show a walk.

        Args:
            session: the open walk; closed when the screen is left.
            notes: what deserves to be known at the start.
        """
        super().__init__()
        self.session = session
        self.moment = session.moment()
        self.shown = self._look()
        self.turned = 0
        self.flipped = False
        self.big = False
        self.choosing: Choosing | None = None
        self.may_convert = False
        self.message = " ".join(notes)
        self.held: tuple[events.Key, Timer] | None = None

    # --- what is shown --------------------------------------------------------------------------

    def on_mount(self) -> None:
        """Begin to look at the clock."""
        self.set_interval(_LOOK_EVERY, self.look_at_clock)
        self.call_after_refresh(self.convert_now)

    def convert_now(self) -> None:
        """After the first paint the second unit may be worked out: that loads what conversion needs.

        The words of a walk are loaded, too, so that the first key does not wait for them.
        What is loaded by then stays; the collector need not look through it again while keys are pressed.
        """
        import_module("torqref.walk.command")
        self.may_convert = True
        self.repaint()
        gc.freeze()

    def look_at_clock(self) -> None:
        """Time alone can change what is asked for."""
        if self.prompt is None and self.choosing is None:
            self.repaint()

    def picture(self, width: int, height: int) -> Sequence[Line]:
        """What the core says now, laid out for this room."""
        self.moment = self.session.moment()
        self.shown = self._look()
        return paint_walk(self.showing(), width, height)

    def sentence(self) -> str:
        """Each new step and stop, where a voice was given."""
        from torqref.walk.spoken import spoken

        return spoken(self.session.progress, self.moment, self.shown, self.session.clock())

    def showing(self) -> Showing:
        """Everything to show now."""
        progress, shown = self.session.progress, self.shown
        mirrored = hole.mirrored(progress) != self.flipped
        mark = hole.mark_line(progress, self.moment, turn=self.turned, mirrored=mirrored)
        return Showing(
            view=shown,
            pattern=self._pattern(shown, mirrored=mirrored),
            second=second_unit_text(progress, shown) if self.may_convert and shown.number else "",
            options=self._options(shown),
            lines=(*shown.lines, *((mark,) if mark else ())),
            keys=tuple(self.keys()),
            message=self.message,
            refused=self.refused,
            prompt=self.prompt,
            alert=progress.outside is not None and self.moment.kind in ("bolt", "card"),
            big=self.big,
            ascii_only=self.look.ascii_only,
        )

    def _look(self) -> View:
        """What the core says at this moment."""
        return view(self.session.progress, self.moment, self.session.clock())

    def _pattern(self, shown: View, *, mirrored: bool) -> Pattern | None:
        plan = self.session.progress.plan
        if plan.bolts < 2 or self.moment.kind == "caution":
            return None
        return Pattern(
            layout=plan.layout,
            states=dict(shown.marks),
            texts=hole.texts(
                self.session.progress,
                self.moment,
                turn=self.turned,
                mirrored=mirrored,
                ascii_only=self.look.ascii_only,
            ),
            pointer=shown.pointer,
            turn=self.turned,
            mirrored=mirrored,
            seen_from=plan.seen_from,
            ascii_only=self.look.ascii_only,
        )

    def _options(self, shown: View) -> tuple[tuple[int, str], ...]:
        """Answers of a question, or what a key gave to choose from."""
        if self.choosing is None:
            return shown.options
        return tuple(enumerate(offers(self.choosing, shown, self.session), start=1))

    # --- keys -----------------------------------------------------------------------------------

    def keys(self) -> Sequence[Key]:
        """What can be said now, and what the screen can do."""
        return keys_of(self.shown.words)

    def help_lines(self) -> Sequence[str]:
        """What is said now in full, and what the help says about a walk."""
        told = (*self.shown.lines, *self.shown.card, self.shown.worth)
        return (*dict.fromkeys(words for words in told if words), *HELP)

    def take(self, event: events.Key) -> None:
        """A key that may be the first of a typed reading waits for the next one; the rest acts at once."""
        held, self.held = self.held, None
        if held is not None:
            first, timer = held
            timer.stop()
            if event.time - first.time < self.burst:
                self.choosing = None
                if self.prompt is None:
                    self._begin_reading((first.character or "").strip())
                else:
                    self.prompt = replace(self.prompt, text=(first.character or "").strip(), is_kept=False)
            else:
                self._act(first)
        if self.burst and self._may_begin(event):
            self.held = (event, self.set_timer(self.burst, self.release))
        else:
            self._act(event)

    def release(self) -> None:
        """Nothing came behind a key that was held: it means what it always means."""
        held, self.held = self.held, None
        if held is not None:
            self._act(held[0])
            if self.is_attached and self.is_current:
                self.repaint()

    def _may_begin(self, event: events.Key) -> bool:
        """A blank, or a digit where it would be an answer: a wrench types faster than any hand.

        Where a refused line was kept, what a wrench sends next is a reading of its own and no part of it.
        """
        if self.prompt is not None:
            return self.prompt.is_kept and bool(event.character and event.character.isprintable())
        if event.key == "space":
            return True
        answers = self.choosing is not None or self.moment.kind not in _READINGS
        return answers and letter_of(event) in tuple("0123456789")

    def _begin_reading(self, text: str) -> None:
        self._ask(_READINGS.get(self.moment.kind, "actual"), text)

    def _act(self, event: events.Key) -> None:
        """What a key means now; one that does not choose ends the choosing."""
        choosing = self.choosing
        super().take(event)
        if choosing is not None and self.choosing is choosing:
            self.choosing = None

    def main(self) -> None:
        """The main key: done, opened, or put down at a wait."""
        if self.choosing is not None:
            return
        if self.moment.kind == "measure":
            self._ask("measure")
        elif self.moment.kind in ("wait", "finished"):
            self.leave()
        else:
            self._told(self.session.press(seen=self.moment))

    def digit(self, character: str) -> None:
        """A digit answers a question or a choice, and else begins a reading."""
        if self.choosing is not None:
            self._pick(self.choosing, int(character))
        elif self.moment.kind in _READINGS:
            self._begin_reading(character)
        else:
            self._do(character)

    def _pick(self, choosing: Choosing, digit: int) -> None:
        """One of the choices was named by its digit."""
        picked = pick(choosing, digit, self.shown, self.session)
        self.choosing = picked if isinstance(picked, Choosing) else None
        if self.choosing is not None:
            self.message = self.choosing.question
        elif picked is None:
            self._refuse(f"{digit} is none of the choices.")
        else:
            self._do(choosing.word, str(picked))

    def typed(self, character: str) -> bool:
        """A sign may begin a reading; a letter means nothing now."""
        if character in SIGNS:
            self._begin_reading(character)
            return True
        self._refuse(f'"{character}" does nothing here; h shows the keys.')
        return True

    def answered(self, word: str, text: str) -> bool:
        """A line was typed; an empty one takes most questions back."""
        if not text and word not in MAY_BE_EMPTY:
            return False
        name, _, rest = word.partition(" ")
        asked = word != "actual" or self.moment.kind in _READINGS  # elsewhere no reading would be right
        return not self._do(name, f"{rest} by {text}" if rest and text else rest or text) and asked

    def act(self, key: Key) -> None:
        """A word is said, asked for or chosen as the table of keys says; the rest is done by name."""
        plain: dict[str, Callable[[str], object]] = {
            "ask": self._ask,
            "say": self._do,
            "choose": self._choose,
        }
        if key.act in plain:
            plain[key.act](key.word)
        else:
            super().act(key)

    def do_undo(self) -> None:
        """Take the last press back; where marks are looked at, the tick of one bolt."""
        if self.moment.kind == "marks":
            self._ask("undo")
        else:
            self._do("undo")

    def do_moved(self) -> None:
        """The bolt moved, and is tight now."""
        self._do("moved", told=f"bolt {self.shown.bolt} moved")

    def do_later(self) -> None:
        """The bolt is not reachable yet."""
        if not self._choose("later", or_say=False):
            self._do("later", told=f"bolt {self.shown.bolt} put off" if self.shown.bolt else "")

    def do_skip(self) -> None:
        """Leave the bolt out, with a reason where the group is checked twice."""
        if not self._choose("skip", or_say=False):
            bolt = bolt_of(self.shown, self.session)
            self._do("skip", bolt, told=f"bolt {bolt} left out of this round; u takes it back")

    def do_round(self) -> None:
        """Tick the rest of the round as a whole."""
        self._do("round")

    def do_verify(self) -> None:
        """The second check: the value is typed, or the marks are looked at."""
        by_marks = check_kind(self.session.progress.plan) == MARKS
        self._ask("verify marks" if by_marks else "verify")

    def do_wrench(self) -> None:
        """Another wrench by digit, or typed: adapter, unit, or an id."""
        typed = self.choosing is not None and self.choosing.word == "wrench"
        if typed or not self._choose("wrench", or_say=False):
            self.choosing = None
            self._ask("wrench")

    def do_keep(self) -> None:
        """A quick walk becomes a draft group of the user's own library."""
        from torqref.walk.keeping import keep_walk

        kept = keep_walk(self.session, self.torqref.context.own_specs)
        self.message, self.refused = kept.sentence, kept.path is None

    def do_turn(self) -> None:
        """Turn the picture a quarter."""
        self.turned = (self.turned + 1) % 4

    def do_mirror(self) -> None:
        """Mirror the picture."""
        self.flipped = not self.flipped

    def do_big(self) -> None:
        """Only bolt, SET, unit and direction; and back."""
        self.big = not self.big

    def do_why(self) -> None:
        """Why it is done so, from the core."""
        from torqref.walk.reason import reasons

        *told, _ = reasons(self.session.progress, self.session.moment())  # the last is said by every help
        self.torqref.show("why", lines=told)

    def leave(self) -> None:
        """Put the walk down and go back."""
        progress = self.session.progress
        if not (progress.finished or progress.abandoned or progress.paused):
            self.torqref.last_words = self.session.do("pause").refused
        self.torqref.last_words = self.torqref.last_words or self._ending()
        self.session.close()
        self.torqref.back()

    def _ending(self) -> str:
        """The last line, as plain mode has it."""
        progress = self.session.progress
        if progress.finished:
            return "finished"
        if progress.abandoned:
            return "abandoned"
        return "due" if self.moment.kind == "wait" else "paused"

    # --- acting ---------------------------------------------------------------------------------

    def _ask(self, word: str, text: str = "") -> None:
        self.refused = False
        self.ask(word, ASKED[word], text)

    def _choose(self, word: str, *, or_say: bool = True) -> bool:
        """Ask for a digit where a word needs one; says whether it does."""
        self.choosing = begin(word, self.shown, self.session)
        if self.choosing is not None:
            self.message, self.refused = self.choosing.question, False
        elif or_say:
            self._do(word)
        return self.choosing is not None

    def _do(self, word: str, argument: str = "", *, told: str = "") -> bool:
        """Say a word; whether it was done."""
        reply = self.session.do(word, argument)
        self._told(reply, told or _TOLD.get(word, ""))
        return not reply.refused

    def _told(self, reply: Reply, told: str = "") -> None:
        """What became of it: a refusal in its own words, with no tick; else what is to be known."""
        before = self.moment
        if reply.refused:
            self._refuse(reply.refused)
            return
        self.message, self.refused = reply.told or told, False
        self.moment = self.session.moment()
        ring(self, self.moment, before, {event.kind for event in reply.events})
        if self.session.progress.paused:
            self.leave()
        elif self.moment.kind == "finished" and before.kind != "finished" and not self.session.by:
            self._ask("sign")

    def _refuse(self, message: str) -> None:
        self.message, self.refused = message, True
        ring(self, None, self.moment)
