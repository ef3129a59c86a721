"""The records: walks and jobs of the folder, newest first; type to narrow them, enter to read or go on."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from pathlib import Path
from time import monotonic
from typing import TYPE_CHECKING

from textual import events
from textual.message import Message
from textual.worker import Worker, get_current_worker

from torqref.document.problem import Problem
from torqref.screens.field import Field
from torqref.screens.fields_screen import HELP_KEY, FieldsScreen
from torqref.screens.key import ARROWS, Key, Move
from torqref.screens.library_panel import digits_of
from torqref.screens.line import Line
from torqref.screens.record_panel import Listed, notes_of, paint_records, rows_room
from torqref.screens.resuming import TAKE_OVER, resumed_listed

if TYPE_CHECKING:
    from torqref.sheets.export import Export
    from torqref.walk.summary import Summary

Found = tuple["Summary | None", tuple[Problem, ...]]

READ = Key(letter="=", word="text", meaning="read this record as text, an open one too", act="read")
FILES = Key(letter="!", word="files", meaning="everything that is wrong with the files", act="files")
KEYS = (
    READ,
    Key(letter="<", word="back", meaning="go back", act="leave"),
    Key(letter="+", word="page", meaning="write what is listed as a page that prints well", act="page"),
    Key(letter=">", word="rows", meaning="write what is listed as rows for a spreadsheet", act="rows"),
)
LAST_KEYS = (
    HELP_KEY,
    Key(letter="*", word="colours", meaning="dark, light or one colour", act="theme"),
)
MOVES = Move(shown="arrows", names=ARROWS, meaning="up and down, by pages too: move the mark")
HELP = (
    "Newest on top. Enter reads the record that is marked; one that is open goes on at the same bolt.",
    "Type words to narrow the list: part of a name, a person, a work order, a day such as 2027-03-01.",
    "open shows what is not finished, due what waits, job only jobs.",
    "by NAME, group G, order T, since DATE and until DATE look in that place only.",
    "Pages and rows are files in the folder sheets beside the records.",
    "P = practice values, invented. C = finished by values that were corrected in the library since.",
)
EMPTY = "No records yet. Walk a group, or a value with + in the library: each walk leaves its record here."
NOTHING_FITS = "No record fits. Backspace erases, ctrl+u empties the line."
# How often a large folder that is still being read is shown with what is there so far.
_SHOW_EVERY, _FIRST_AFTER = 0.3, 0.05
# How often the clock is looked at: what waits comes due.
_LOOK_EVERY = 20.0


class RecordsRead(Message):
    """What the reading thread has read since the last message."""

    def __init__(self, found: Sequence[Found], *, ready: bool = False) -> None:
        """Some more.

        Args:
            found: what each file says, newest first.
            ready: whether this is all.
        """
        super().__init__()
        self.found, self.ready = tuple(found), ready


class CorrectedRead(Message):
    """Walks whose values were corrected in the library since."""

    def __init__(self, told: dict[str, tuple[str, ...]]) -> None:
        """What has changed, by the id of the walk."""
        super().__init__()
        self.told = told


class Written(Message):
    """A sheet was written, or not."""

    def __init__(self, export: Export) -> None:
        """What became of it."""
        super().__init__()
        self.export = export


class RecordScreen(FieldsScreen):
    """Walks and jobs newest first; read after the first paint, in a thread of its own."""

    name_shown = "records"
    main_help = "go on with the open walk or job that is marked; read any other record"

    def __init__(self) -> None:
        """An empty list; what belongs in it is read after the first paint."""
        super().__init__((Field(name="find", label="find", hint="name, day, due, by Ada"),))
        self.summaries: tuple[Summary, ...] = ()
        self.rows: tuple[Summary, ...] = ()
        self.problems: tuple[tuple[Path | None, Problem], ...] = ()
        self.due: tuple[str, ...] = ()
        self.corrected: dict[str, tuple[str, ...]] = {}
        # A file that has not changed says the same; only an open job goes by other files, too.
        self.known: dict[Path, tuple[tuple[int, int], Found]] = {}
        self.incoming: list[Found] = []
        self.reading, self.begun = True, False
        self.selected, self.room = 0, 1
        self.choosing: tuple[str, ...] = ()
        self.reader: Worker[None] | None = None

    # --- reading --------------------------------------------------------------------------------

    def on_mount(self) -> None:
        """Read after the first paint, and look at the clock."""
        self.set_interval(_LOOK_EVERY, self.look_at_clock)
        self.call_after_refresh(self.read_all)

    def read_all(self) -> None:
        """Read the folder in a thread."""
        self.begun, self.reading, self.incoming = True, True, []
        self.reader = self.run_worker(self.read_folder, thread=True, exclusive=True, group="reader")

    def read_folder(self) -> None:
        """Every journal, newest first; what is there so far is shown meanwhile."""
        from torqref.walk.archive import folder_problems
        from torqref.walk.listing import record_paths

        worker, last = get_current_worker(), monotonic() - _SHOW_EVERY + _FIRST_AFTER
        folder = self.torqref.context.records
        so_far: list[Found] = [(None, folder_problems(folder))]
        finished: list[Summary] = []
        for path in record_paths(folder):
            if worker.is_cancelled:
                return
            found = self._read(path)
            so_far.append(found)
            if found[0] is not None and found[0].state == "finished":
                finished.append(found[0])
            if monotonic() - last > _SHOW_EVERY:
                last = monotonic()
                self.post_message(RecordsRead(so_far))
                so_far = []
        self.post_message(RecordsRead(so_far, ready=True))
        self._hold_against_library(finished, worker)

    def _read(self, path: Path) -> Found:
        from torqref.walk.listing import read_summary

        try:
            seen = path.stat()
            stamp = (seen.st_mtime_ns, seen.st_size)
        except OSError:
            stamp = (0, 0)
        known = self.known.get(path)
        if known is not None and known[0] == stamp:
            return known[1]
        found = read_summary(path)
        if found[0] is not None and not (found[0].is_job and found[0].is_open) and not found[1]:
            self.known[path] = (stamp, found)
        return found

    def _hold_against_library(self, finished: Sequence[Summary], worker: Worker[None]) -> None:
        """Which finished walks used values that were corrected since."""
        from torqref.walk.audit import present_of

        present, told = present_of(finished, self.torqref.context.libraries), dict[str, tuple[str, ...]]()
        for summary in finished:
            if worker.is_cancelled:
                return
            if changes := present.changes_of(summary):
                told[summary.id] = changes
        self.post_message(CorrectedRead(told))

    def on_records_read(self, message: RecordsRead) -> None:
        """Show what is read so far; when it is read again, only when all is there."""
        message.stop()
        first = not self.summaries or len(self.incoming) >= len(self.summaries)
        self.incoming.extend(message.found)
        self.reading = not message.ready
        if first or message.ready:
            self.summaries = tuple(summary for summary, _ in self.incoming if summary is not None)
            told = (
                (found.path if found else None, each)
                for found, problems in self.incoming
                for each in problems
            )
            self.problems = tuple(sorted(told, key=lambda pair: pair[1].severity != "error"))
            self.list_anew()
        self.look_at_clock()

    def on_corrected_read(self, message: CorrectedRead) -> None:
        """Mark the walks whose values were corrected since."""
        message.stop()
        self.corrected = message.told
        self.repaint()

    def look_at_clock(self) -> None:
        """Time alone changes what is due."""
        from torqref.walk.summary import all_due

        self.due = tuple(all_due(self.summaries, self.torqref.context.clock()))
        self.repaint()

    def on_screen_resume(self) -> None:
        """Back from another screen: what happened there is read, and the look may have changed."""
        last, self.torqref.last_words = self.torqref.last_words, ""
        if last:
            self.message, self.refused = f"Walk {last}.", False
        self.repaint()
        if self.begun:
            self.read_all()

    # --- listing --------------------------------------------------------------------------------

    def changed(self) -> None:
        """Other words: another list, from its newest."""
        self.selected = 0
        self.list_anew()

    def list_anew(self) -> None:
        """What fits the words now; the mark stays on its record."""
        from torqref.sheets.selection import read_selection

        marked = self.marked
        wanted = read_selection(self.text("find"))
        self.rows = tuple(summary for summary in self.summaries if wanted.fits(summary))
        if marked is not None and self.selected:
            places = (place for place, row in enumerate(self.rows) if row.id == marked.id)
            self.selected = next(places, min(self.selected, max(0, len(self.rows) - 1)))

    @property
    def marked(self) -> Summary | None:
        """The record in hand."""
        return self.rows[self.selected] if self.selected < len(self.rows) else None

    def picture(self, width: int, height: int) -> Sequence[Line]:
        """The list as far as there is room for it."""
        row = self.marked
        listed = Listed(
            filter=self.field_lines(width)[0],
            rows=self.rows,
            selected=self.selected,
            count=self._count(),
            due=self.due,
            notes=tuple(self._notes(row)) if row is not None else (),
            outdated=frozenset(self.corrected),
            problems=tuple(problem for _, problem in self.problems),
            empty=self._empty(),
            options=digits_of(self.choosing),
            ask=f"Bay {row.bay} has this walk; take it over?" if row is not None else "",
            message=self.message,
            refused=self.refused,
            keys=self.key_line(width, self._main_word()),
            ascii_only=self.look.ascii_only,
        )
        self.room = rows_room(listed, width, height)
        return paint_records(listed, width, height)

    def _notes(self, row: Summary) -> Iterator[tuple[str, str]]:
        from torqref.walk.audit import outdated_line
        from torqref.walk.summary import due_lines

        changes = self.corrected.get(row.id, ())
        problem = next((problem for path, problem in self.problems if path == row.path), None)
        now = self.torqref.context.clock()
        yield from notes_of(row, due_lines(row, now), outdated_line(changes) if changes else "", problem)

    def _count(self) -> str:
        fitting, every = len(self.rows), len(self.summaries)
        if self.reading:
            return f"reading, {every} so far"
        if fitting != every:
            return f"{fitting} of {every}"
        return "1 record" if every == 1 else f"{every} records"

    def _empty(self) -> str:
        if self.reading:
            return "Reading the records."
        return NOTHING_FITS if self.summaries else EMPTY

    def _main_word(self) -> str:
        row = self.marked
        return "back" if row is None else "go on" if self._goes_on(row) else "read"

    @staticmethod
    def _goes_on(row: Summary) -> bool:
        return row.is_open and not row.damaged

    # --- keys -----------------------------------------------------------------------------------

    def keys(self) -> Sequence[Key]:
        """Signs for what can be done beside typing."""
        return (*KEYS, *((FILES,) if self.problems else ()), *LAST_KEYS)

    def moves(self) -> Sequence[Move]:
        """Keys that move the mark, and those that edit."""
        return (MOVES, *super().moves())

    def help_lines(self) -> Sequence[str]:
        """What the help says about the records."""
        return HELP

    def take(self, event: events.Key) -> None:
        """While a question is open, 1 answers it and anything else takes it back."""
        if not self.choosing:
            self.refused = False
            super().take(event)
            return
        self.choosing = ()
        if event.character == "1" and self.marked is not None:
            self._go_on(self.marked)

    def special(self, name: str) -> bool:
        """Arrows and page keys move the mark."""
        steps = {"up": -1, "down": 1, "pageup": -self.room, "pagedown": self.room}
        far = {"home": 0, "end": len(self.rows) - 1}
        if name not in steps and name not in far:
            return name not in ("tab", "shift+tab") and super().special(name)
        place = far.get(name, self.selected + steps.get(name, 0))
        self.selected = max(0, min(place, len(self.rows) - 1))
        return True

    def main(self) -> None:
        """Go on with an open walk, read anything else; from an empty list go back."""
        row = self.marked
        if row is None:
            self.leave()
        elif not self._goes_on(row):
            self.do_read()
        elif row.bay != self.torqref.context.bay:
            self.choosing = TAKE_OVER
        else:
            self._go_on(row)

    def do_read(self) -> None:
        """The record in hand as text."""
        if self.marked is not None:
            self.torqref.show("record text", summary=self.marked)

    def do_files(self) -> None:
        """What is wrong with the files."""
        self.torqref.show("problems", problems=[problem for _, problem in self.problems])

    def do_page(self) -> None:
        """Write what is listed as a page."""
        self._write("page")

    def do_rows(self) -> None:
        """Write what is listed as rows."""
        self._write("rows")

    def _write(self, kind: str) -> None:
        """Many records take a while: they are written in a thread, and the list stays usable."""
        rows, context = self.rows, self.torqref.context

        def write() -> None:
            from torqref.sheets.export import export_page, export_rows

            given = (rows, context.records, context.clock())
            page = kind == "page"
            self.post_message(
                Written(export_page(*given, context.libraries) if page else export_rows(*given))
            )

        self.message, self.refused = f"writing the {kind}", False
        self.run_worker(write, thread=True, group="writer")

    def on_written(self, message: Written) -> None:
        """Say where it is."""
        message.stop()
        self.message, self.refused = message.export.sentence, message.export.path is None
        self.repaint()

    def _go_on(self, row: Summary) -> None:
        """Read it whole, as it is now, and go on with it."""
        opening = resumed_listed(row, self.torqref.context)
        if isinstance(opening, Problem):
            self.message, self.refused = opening.sentence(), True
        elif opening.session is None:
            self.message = opening.refusal.sentence() if opening.refusal else "It cannot be opened."
            self.refused = True
        else:
            self.torqref.show("job" if row.is_job else "walk", session=opening.session, notes=opening.notes)
