"""The library: type to find, enter to walk; what is open or due stands on top."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from time import monotonic

from textual import events
from textual.worker import get_current_worker

from torqref.document.problem import Problem
from torqref.library.group import Group
from torqref.library.quick import Typed, read_typed
from torqref.library.search import search
from torqref.library.shelf import Shelf, read_shelf
from torqref.screens.field import Field
from torqref.screens.fields_screen import HELP_KEY, FieldsScreen
from torqref.screens.key import Key
from torqref.screens.library_panel import Showing, digits_of, paint_library, room_for_rows, window_top
from torqref.screens.library_rows import Rows, fits
from torqref.screens.line import Line
from torqref.walk.archive import open_records
from torqref.walk.opening import Opening, Request, open_group, resume
from torqref.walk.planner import LOOSEN, TIGHTEN, Bench
from torqref.walk.standing import Standing, in_order, standing

KEYS = (
    Key(letter="+", word="quick", meaning="quick walk: a value that is in no library", act="quick"),
    Key(letter="!", word="loosen", meaning="loosen this group: in reverse and in rounds", act="loosen"),
    Key(letter="=", word="convert", meaning="a value in other units", act="convert"),
    Key(letter="@", word="crowfoot", meaning="what to set with a crowfoot on the wrench", act="crowfoot"),
    HELP_KEY,
    Key(letter="*", word="colours", meaning="dark, light or one colour", act="theme"),
    Key(letter="<", word="leave", meaning="leave the program; ctrl+c does the same", act="leave"),
)
HELP = (
    "Type words of the name, the thread or the value to find a group; enter opens the one that is marked.",
    "The number of an open walk and enter goes on with it; enter alone takes the first one.",
    "Arrows and page keys move the mark. Backspace erases; ctrl+u empties the line.",
    "A value with its unit, such as M8 10.9 24 N·m, may be typed right here: enter makes it a quick walk.",
    "P = practice values, invented. U = unverified: nobody typed the values a second time. N = no source.",
)
# How often a large library that is still being read is shown with what is there so far.
_SHOW_EVERY = 0.4


class LibraryScreen(FieldsScreen):
    """All groups, open walks and due items; read after the first paint."""

    name_shown = "library"

    def __init__(self, *, shelf: Shelf | None = None) -> None:
        """The library.

        Args:
            shelf: what is there, where it was read already; else it is read after the first paint.
        """
        super().__init__((Field(name="find", label="find", hint="a name, M8, 24 Nm"),))
        self.groups: Mapping[str, Group] = shelf.groups if shelf else {}
        self.problems: tuple[Problem, ...] = shelf.problems if shelf else ()
        self.reading = shelf is None
        self.standings: tuple[Standing, ...] = ()
        self.record_problems: tuple[Problem, ...] = ()
        self.rows = Rows()
        self.selected = 0
        self.moved_by_hand = False
        self.top = 0
        self.choosing: tuple[str, ...] = ()
        self.action = TIGHTEN
        self.refused = False

    # --- reading --------------------------------------------------------------------------------

    def on_mount(self) -> None:
        """First what is open, then the library, both after the first paint."""
        self.call_after_refresh(self.read_records)
        if self.reading:
            self.run_worker(self.read_library, thread=True)
        else:
            self.list_anew()

    def read_records(self) -> None:
        """The walks that are open, and where they stand now."""
        context = self.torqref.context
        found, self.record_problems = open_records(context.records)
        now = context.clock()
        self.standings = in_order(tuple(standing(record, now, context.bay) for record in found))
        self.list_anew()
        self.repaint()

    def read_library(self) -> None:
        """Every file of the library, in a thread of its own; what is there so far is shown meanwhile."""
        worker, last = get_current_worker(), monotonic()

        def heard(groups: Mapping[str, Group]) -> None:
            nonlocal last
            if not worker.is_cancelled and monotonic() - last > _SHOW_EVERY:
                last = monotonic()
                self.app.call_from_thread(self.take_in, dict(groups), ())

        shelf = read_shelf(self.torqref.context.libraries, heard)
        if not worker.is_cancelled:
            self.app.call_from_thread(self.take_in, shelf.groups, shelf.problems, ready=True)

    def take_in(
        self, groups: Mapping[str, Group], problems: tuple[Problem, ...], *, ready: bool = False
    ) -> None:
        """Show what the library holds, as far as it is read."""
        self.groups, self.problems, self.reading = groups, problems, not ready
        self.list_anew()
        self.repaint()

    def on_screen_resume(self) -> None:
        """Back from a walk: what is open may have changed."""
        last, self.torqref.last_words = self.torqref.last_words, ""
        self.message, self.refused = last, False
        self.read_records()

    # --- listing --------------------------------------------------------------------------------

    def changed(self) -> None:
        """Other words: another list, from its first row."""
        self.moved_by_hand = False
        self.list_anew()

    def list_anew(self) -> None:
        """What fits the words now."""
        text = self.text("find")
        here = self.rows[self.selected] if self.moved_by_hand and self.selected < len(self.rows) else None
        told = tuple(
            problem for problem in (*self.record_problems, *self.problems) if problem.severity != "hint"
        )
        self.rows = Rows(
            problems=told if not text.strip() else (),
            standings=tuple(
                each for number, each in enumerate(self.standings, start=1) if fits(each, number, text)
            ),
            typed=_typed(text),
            groups=tuple(match.group for match in search(text.split(), self.groups.values())),
        )
        self.selected = self.rows.first
        if here is not None:
            places = (place for place in range(len(self.rows)) if self.rows[place] is here)
            self.selected = next(places, self.rows.first)

    def picture(self, width: int, height: int) -> Sequence[Line]:
        """The list as far as there is room for it."""
        room = room_for_rows(height)
        self.top = window_top(self.selected, self.top, room, len(self.rows))
        return paint_library(self._showing(width), width, height)

    def _showing(self, width: int) -> Showing:
        return Showing(
            filter=self.field_lines(width)[0],
            rows=self.rows,
            selected=self.selected,
            top=self.top,
            count=self._count(),
            options=self._options(),
            ask=self._ask(),
            message=self.message,
            refused=self.refused,
            keys=self.key_line(width, "go on" if self._in_hand(Standing) else "walk"),
            ascii_only=self.look.ascii_only,
        )

    def _count(self) -> str:
        fitting, all_ = len(self.rows.groups), len(self.groups)
        count = f"{fitting} of {all_} groups" if fitting != all_ else f"{all_} groups"
        return f"reading the library, {all_} groups so far" if self.reading else count

    def _in_hand(self, kind: type) -> bool:
        return self.selected < len(self.rows) and isinstance(self.rows[self.selected], kind)

    def _options(self) -> tuple[tuple[str, str], ...]:
        row = self.rows[self.selected] if self.choosing else None
        every = (("enter", "all places, one after the other"),) if isinstance(row, Group) else ()
        return (*digits_of(self.choosing), *every) if self.choosing else ()

    def _ask(self) -> str:
        if not self.choosing:
            return ""
        row = self.rows[self.selected]
        if isinstance(row, Standing):
            return f"Bay {row.elsewhere} has this walk; take it over?"
        return "LOOSEN which place?" if self.action == LOOSEN else "Which place?"

    # --- keys -----------------------------------------------------------------------------------

    def keys(self) -> Sequence[Key]:
        """Signs for what can be done beside typing."""
        return KEYS

    def help_lines(self) -> Sequence[str]:
        """What the help says about the library."""
        return HELP

    def take(self, event: events.Key) -> None:
        """While a question is open, a digit or enter answers it and anything else takes it back."""
        if not self.choosing:
            self.refused = False
            super().take(event)
            return
        choices, self.choosing = self.choosing, ()
        number = int(event.character) if event.character and event.character in "123456789" else 0
        if 0 < number <= len(choices):
            self._chosen(number, choices)
        elif event.key == "enter" and self._in_hand(Group):
            self._open("")

    def _chosen(self, number: int, choices: Sequence[str]) -> None:
        row = self.rows[self.selected]
        if isinstance(row, Standing):
            if number == 1:
                self._resume(row)
        else:
            self._open(choices[number - 1])

    def special(self, name: str) -> bool:
        """Arrows and page keys move the mark."""
        room = room_for_rows(self.size.height)
        steps = {"up": -1, "down": 1, "pageup": -room, "pagedown": room}
        far = {"home": 0, "end": len(self.rows) - 1}
        if name not in steps and name not in far:
            return name != "tab" and super().special(name)
        place = far.get(name, self.selected + steps.get(name, 0))
        self.selected = max(0, min(place, len(self.rows) - 1))
        self.moved_by_hand = True
        return True

    def main(self) -> None:
        """Open the row that is marked."""
        self.action = TIGHTEN
        self._enter()

    def do_loosen(self) -> None:
        """Open the group that is marked for loosening."""
        if not self._in_hand(Group):
            self._refuse("Only a group is loosened: mark one first.")
            return
        self.action = LOOSEN
        self._enter()

    def _enter(self) -> None:
        if self.selected >= len(self.rows):
            return
        row = self.rows[self.selected]
        if isinstance(row, Typed):
            self.do_quick()
        elif isinstance(row, Problem):
            self.torqref.show("problems", problems=self.rows.problems)
        elif isinstance(row, Standing):
            self._go_on(row)
        elif len(row.places) > 1:
            self.choosing = row.places[:9]
        else:
            self._open("")

    def do_quick(self) -> None:
        """The quick walk, with the value where one is typed already."""
        text = self.text("find") if self.rows.typed is not None else ""
        self.torqref.show("quick", text=text)

    def do_convert(self) -> None:
        """Units."""
        self.torqref.show("convert", text=self.text("find") if self.rows.typed is not None else "")

    def do_crowfoot(self) -> None:
        """Crowfoot."""
        self.torqref.show("crowfoot")

    # --- opening --------------------------------------------------------------------------------

    def _go_on(self, row: Standing) -> None:
        if row.elsewhere:
            self.choosing = ("take it over", "leave it to them")
        else:
            self._resume(row)

    def _resume(self, row: Standing) -> None:
        self._opened(resume(row.record, self._request(), self.torqref.context.clock))

    def _open(self, place: str) -> None:
        row, context = self.rows[self.selected], self.torqref.context
        if not isinstance(row, Group):
            return
        bench = Bench(today=context.clock().date(), rack=context.rack, place=place, action=self.action)
        self._opened(open_group(row, bench, self._request(), context.clock))

    def _request(self) -> Request:
        context = self.torqref.context
        return Request(folder=context.records, bay=context.bay, work_order=context.work_order, by=context.by)

    def _opened(self, opening: Opening) -> None:
        if opening.session is None:
            self._refuse(opening.refusal.sentence() if opening.refusal else "It cannot be opened.")
            return
        self.torqref.show("walk", session=opening.session, notes=opening.notes)

    def _refuse(self, message: str) -> None:
        self.message, self.refused = message, True


def _typed(text: str) -> Typed | None:
    """What was typed, where it reads as a value with its unit."""
    if not any(char.isdigit() for char in text):
        return None
    found = read_typed(text)
    return found if isinstance(found, Typed) else None
