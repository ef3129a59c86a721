"""The job screen: one step of the repair at a time; the core says what to show and what a key may do."""

from __future__ import annotations

from collections.abc import Callable, Sequence

from textual import events

from torqref.screens.bell import sound
from torqref.screens.job_keys import HELP, keys_of
from torqref.screens.job_panel import Listed, Showing, paint_job
from torqref.screens.key import LEAVE, MAIN, Key
from torqref.screens.line import Line
from torqref.screens.painted import PaintedScreen
from torqref.walk.bounce import AHEAD
from torqref.walk.job_moment import JobMoment
from torqref.walk.job_session import JobSession
from torqref.walk.job_view import JobView, job_view, recheck_text
from torqref.walk.session import Reply

# How often the clock is looked at: a wait comes due, a deadline runs.
_LOOK_EVERY = 5.0
# Moments that another hand or another look comes with: the bell rings twice.
_LOOK = frozenset(
    {"opening", "fact", "safe", "alone", "group", "wait", "waited", "sign-off", "recheck", "finished"}
)
ASKED = {
    "measure": "reading, with its unit:",
    "answer": "number of the answer:",
    "go": "do which step now? its number:",
    "again": "do which step once more? its number:",
    "order": "number of the work order:",
    "order at the end": "number of the work order; enter = none:",
    "sign": "who signs? the name:",
    "adapter": "adapter ID, OFFSET@ANGLE, or none:",
    "note": "note:",
    "recheck": "what was seen, or the reading with its unit:",
}
_CHOSEN = {
    "skip": "Why is this step left out?",
    "abandon": "End the job unfinished: why?",
    "recheck": "Which recheck?",
}
_TOLD = {"undo": "taken back", "later": "put off", "note": "kept", "order": "work order kept"}
# What a reading can begin with beside a digit.
_SIGNS = frozenset("-+−.")
_MOST = 9
# Keys that mean the same whatever is shown.
_ALWAYS = frozenset({"ctrl+l", "ctrl+z", *LEAVE})


class JobScreen(PaintedScreen):
    """A job that is open, from its cautions to its signature."""

    main_ahead = False

    def __init__(self, *, session: JobSession, notes: Sequence[str] = ()) -> None:
        """Show a job.

        Args:
            session: the open job; closed when the screen is left.
            notes: what deserves to be known at the start.
        """
        super().__init__()
        self.session = session
        self.moment = session.moment()
        self.shown = self._look()
        self.listed: Listed | None = None
        self.choosing = ""
        self.start = self.next = 0
        self.order_asked = False
        self.message = " ".join(notes)

    # --- what is shown --------------------------------------------------------------------------

    def on_mount(self) -> None:
        """Begin to look at the clock."""
        self.set_interval(_LOOK_EVERY, self.look_at_clock)

    def on_unmount(self) -> None:
        """The journal is free again, however the program ends."""
        self.session.close()

    def look_at_clock(self) -> None:
        """Time alone can change what is asked for, or pass a deadline: that rings, too."""
        if not self.is_current:
            return
        if self.session.moment() != self.moment or (self._look().is_late and not self.shown.is_late):
            sound(self, 2)
        self.repaint()

    def on_resize(self, event: events.Resize) -> None:
        """Another size breaks the words elsewhere: they are shown from their beginning."""
        self.start = -1 if self.listed is not None and self.listed.steps else 0
        super().on_resize(event)

    def picture(self, width: int, height: int) -> Sequence[Line]:
        """What the core says now, laid out for this room."""
        moment = self.session.moment()
        if moment != self.moment:
            self.moment, self.start = moment, 0
        self.shown = self._look()
        sheet = paint_job(self.showing(), width, height)
        self.start, self.next = sheet.start, sheet.next
        return sheet.lines

    def sentence(self) -> str:
        """Each new step, where a voice was given."""
        from torqref.walk.job_spoken import spoken_in_job

        session = self.session
        return spoken_in_job(session.standing, self.moment, self.shown, session.clock())

    def _look(self) -> JobView:
        """What the core says at this moment."""
        return job_view(self.session.standing, self.moment, self.session.clock())

    def showing(self) -> Showing:
        """Everything to show now."""
        return Showing(
            view=self.shown,
            options=self._options(),
            keys=tuple(self.keys()),
            listed=self.listed,
            start=self.start,
            message=self.message,
            refused=self.refused,
            prompt=self.prompt,
            ascii_only=self.look.ascii_only,
        )

    def _options(self) -> tuple[tuple[int, str], ...]:
        """Answers of a question, or what a key gave to choose from."""
        if self.choosing:
            return tuple(enumerate(self._offers(), start=1))
        return self.shown.options if self.listed is None else ()

    def _offers(self) -> tuple[str, ...]:
        if self.choosing == "recheck":
            progress = self.session.progress
            return tuple(recheck_text(progress, place) for place in progress.open_rechecks)[:_MOST]
        return dict(self.shown.choices).get(self.choosing, ())[:_MOST]

    # --- keys -----------------------------------------------------------------------------------

    def keys(self) -> Sequence[Key]:
        """What can be said now, and what the screen can do."""
        return keys_of(self.shown.words)

    def help_lines(self) -> Sequence[str]:
        """What the help says about a job."""
        return HELP

    def take(self, event: events.Key) -> None:
        """While there is something to choose or a list to read, other keys only go back."""
        ahead = self.seen_from is None or event.time < self.seen_from
        if ahead and self.moment.kind == "safe" and event.key not in _ALWAYS:
            self._refuse(AHEAD)
        elif self.prompt is not None or event.key in _ALWAYS:
            super().take(event)
            if self.prompt is None:
                self._list(None)
        elif self.choosing:
            self.message = ""
            digit = event.character if event.character and event.character in "0123456789" else ""
            if digit:
                self._pick(int(digit))
            else:
                self.choosing = ""
        elif self.listed is not None:
            self._turn(event)
        else:
            super().take(event)

    def _turn(self, event: events.Key) -> None:
        """The main key turns the list round and round; any other one goes back."""
        if event.key in MAIN and (self.next or self.start):
            self.start = self.next
        else:
            self._list(None)

    def main(self) -> None:
        """The main key: the next page of the words, done, the walk of a group, or put down at a wait."""
        if self.next:
            self.start = self.next
        else:
            _MAIN.get(self.moment.kind, JobScreen._press_main)(self)

    def _press_main(self) -> None:
        self._told(self.session.press(seen=self.moment))

    def _type_reading(self) -> None:
        self._ask("measure")

    def digit(self, character: str) -> None:
        """A digit answers a question or a choice, or begins a reading."""
        if self.moment.kind == "reading":
            self._ask("measure", character)
        elif self.next:
            self._refuse("There is more to read: enter turns the page.")
        elif len(self.moment.options) > _MOST:
            self._ask("answer", character)
        else:
            self._told(self.session.press(character, seen=self.moment))

    def typed(self, character: str) -> bool:
        """A sign can begin a reading; any other letter means nothing now."""
        if self.moment.kind == "reading" and character in _SIGNS:
            self._ask("measure", character)
        else:
            self._refuse(f'"{character}" does nothing here; h shows the keys.')
        return True

    def act(self, key: Key) -> None:
        """A word is said, asked for or chosen as the table of keys says; the rest is done by name."""
        plain: dict[str, Callable[[str], object]] = {
            "ask": self._ask,
            "choose": self._choose,
        }
        if key.act in plain:
            plain[key.act](key.word)
        else:
            super().act(key)

    def answered(self, word: str, text: str) -> bool:
        """A line was typed; an empty one takes the question back."""
        name, _, rest = word.partition(" ")
        done = True
        if name == "answer":
            done = self._told(self.session.press(text, seen=self.moment))
        elif text:
            done = self._do(name, text if name == "order" else f"{rest} {text}".strip())
        if done and word == "order at the end":
            self.order_asked = True
            self._ask("sign")
        return not done

    def do_later(self) -> None:
        """Other steps first."""
        self._do("later")

    def do_undo(self) -> None:
        """Take the last press back, even one in the walk that was just left."""
        self._do("undo")

    def do_due(self) -> None:
        """What is waiting."""
        lines = (*self.shown.deadlines, *self.shown.due)
        self._list(Listed(heading="DUE", lines=lines or ("nothing is due",)))

    def do_steps(self) -> None:
        """Every step and its state."""
        self._list(Listed(heading="ALL STEPS", steps=True))

    def do_parts(self) -> None:
        """Parts and fluids, as the kit has them."""
        from torqref.sheets.kit import fluid_line, part_line
        from torqref.walk.kit import supplies

        session = self.session
        parts = supplies(session.plan, session.bay.groups, session.progress.facts)
        lines = (*map(part_line, parts), *map(fluid_line, session.plan.fluids))
        self._list(Listed(heading="PARTS AND FLUIDS", lines=lines or ("the job names none",)))

    def do_go(self) -> None:
        """Another step now: its number is typed under the list."""
        self.do_steps()
        self._ask("go")

    def do_again(self) -> None:
        """A step once more: its number is typed under the list."""
        self.do_steps()
        self._ask("again")

    def do_sign(self) -> None:
        """Sign off; a name that is known stands there and needs only enter."""
        self._ask("sign", self.session.by)

    # --- the walk of a group --------------------------------------------------------------------

    def enter(self) -> None:
        """Open the walk of the group that comes now."""
        opening = self.session.enter()
        if opening.session is None:
            self._refuse(opening.refusal.sentence() if opening.refusal else "It cannot be walked.")
            return
        self.torqref.show("job walk", job=self, session=opening.session, notes=opening.notes)

    def arrived(self) -> None:
        """The step was ended by the last press in its walk: another look is wanted."""
        sound(self, 2)

    def come_back(self, told: Sequence[str], refused: str) -> None:
        """The walk was left: what became of it."""
        self.message, self.refused = refused or "; ".join(told), bool(refused)
        self.start = 0
        # The step is said again though it be the same one: something else was heard since.
        self.spoken, self.lead = "", self.message

    # --- leaving --------------------------------------------------------------------------------

    def leave(self) -> None:
        """Put the job down and go back."""
        progress = self.session.progress
        ended = progress.abandoned or progress.is_signed
        refused = "" if ended or progress.paused else self.session.do("pause").refused
        self.torqref.last_words = refused or self._ending()
        self.session.close()
        self.torqref.back()

    def _ending(self) -> str:
        """The last line, as plain mode has it."""
        if self.session.progress.abandoned:
            return "abandoned"
        if self.session.progress.is_signed:
            return "finished"
        return "due" if self.moment.kind == "wait" else "paused"

    def sign_off(self) -> None:
        """The work order where it is not known, then the name; nothing is signed without being typed."""
        if self.session.progress.work_order or self.order_asked:
            self._ask("sign")
        else:
            self._ask("order at the end")

    # --- acting ---------------------------------------------------------------------------------

    def _list(self, listed: Listed | None) -> None:
        self.listed, self.start = listed, -1 if listed is not None and listed.steps else 0

    def _ask(self, word: str, text: str = "") -> None:
        self.refused = False
        self.ask(word, ASKED.get(word) or ASKED[word.partition(" ")[0]], text)

    def _choose(self, word: str) -> None:
        """Ask for a digit; where there is nothing to choose from the core says why."""
        self.choosing = word
        if self._offers():
            self.message, self.refused = f"{_CHOSEN[word]} A digit; any other key goes back.", False
        else:
            self.choosing = ""
            self._do(word)

    def _pick(self, digit: int) -> None:
        """One of the choices was named by its digit."""
        word, offers, self.choosing = self.choosing, self._offers(), ""
        if not 1 <= digit <= len(offers):
            self._refuse(f"{digit} is none of the choices.")
        elif word == "recheck":
            self._ask(f"recheck {self.session.progress.open_rechecks[digit - 1]}")
        else:
            self._do(word, str(digit))

    def _do(self, word: str, argument: str = "") -> bool:
        return self._told(self.session.do(word, argument), _TOLD.get(word, ""))

    def _told(self, reply: Reply, told: str = "") -> bool:
        """What became of it, and whether it was done: a refusal in its own words, with no tick."""
        if reply.refused:
            self._refuse(reply.refused)
            return False
        before, self.moment = self.moment, self.session.moment()
        self.message, self.refused, self.start = reply.told or told, False, 0
        sound(self, _strokes(self.moment, before))
        if self.session.progress.paused:
            self.leave()
        return True

    def _refuse(self, message: str) -> None:
        self.message, self.refused = message, True
        sound(self, 3)


# What the main key does where it is not simply pressed.
_MAIN: dict[str, Callable[[JobScreen], None]] = {
    "reading": JobScreen._type_reading,
    "group": JobScreen.enter,
    "wait": JobScreen.leave,
    "sign-off": JobScreen.sign_off,
    "recheck": JobScreen.leave,
    "finished": JobScreen.leave,
}


def _strokes(after: JobMoment, before: JobMoment) -> int:
    """How often the bell rings: two where a look is wanted, one where something was ticked."""
    if after == before:
        return 0
    return 2 if after.kind in _LOOK else 1
