"""One record as text, page by page: the same lines that `torqref record ID` prints."""

from __future__ import annotations

import re
from collections.abc import Callable, Iterator, Sequence
from typing import TYPE_CHECKING

from torqref.library.source import PRACTICE
from torqref.screens.foot import key_line
from torqref.screens.head import head
from torqref.screens.key import ARROWS, Key, Move
from torqref.screens.line import Line, Piece, block, fitted, shown, wrapped
from torqref.screens.painted import PaintedScreen
from torqref.screens.resuming import group_today, resumed

if TYPE_CHECKING:
    from torqref.document.problem import Problem
    from torqref.sheets.export import Export
    from torqref.walk.archive import Record
    from torqref.walk.summary import Summary

GO_ON = Key(letter="g", word="go on", meaning="go on with this walk at the same bolt", act="go_on")
BACK = Key(letter="q", word="back", meaning="back to the list", act="leave")
BEFORE = Key(letter="b", word="before", meaning="the page before", act="before")
KEYS = (
    Key(letter="p", word="page", meaning="write it as a page that prints well", act="page"),
    Key(letter="r", word="rows", meaning="write its events as rows for a spreadsheet", act="rows"),
    BEFORE,
    Key(letter="h", word="help", meaning="all keys", act="help"),
    Key(letter="?", word="help", meaning="the same", act="help"),
    Key(letter="c", word="colours", meaning="dark, light or one colour", act="theme"),
)
MOVES = (
    Move(shown="arrows", names=ARROWS, meaning="up and down, by lines and by pages"),
    Move(shown="escape", names=("escape",), meaning="go back"),
)
HELP = (
    "Printed is what the page of the manual says, set what the wrench was set to. Only what is called "
    "measured was shown by an instrument.",
    "Taken back: it was pressed and undone; it does not count and stays readable.",
)
_TONES = (
    (PRACTICE, "practice"), ("CAUTION", "strong"), ("DUE: ", "stop"), ("Due: ", "stop"),
    ("Finished by values", "stop"),
)  # fmt: skip

# A number and its unit stay on one line; the sign between them meanwhile is one that no text has.
_GAP, _TIE = re.compile(r"(?<=\d) (?=[A-Za-z]+[·.-][A-Za-z])"), "\ue000"


class RecordTextScreen(PaintedScreen):
    """The text of one walk or one job."""

    name_shown = "record"
    main_help = "or space: the next page; after the last one back"

    def __init__(self, *, summary: Summary) -> None:
        """Show a record.

        Args:
            summary: the record as the list has it.
        """
        super().__init__()
        self.summary = summary
        self.told: tuple[tuple[str, str], ...] = ()
        self.walk: Record | None = None
        self.wrapped_for: tuple[int, bool] = (0, False)
        self.lines: tuple[Line, ...] = ()
        self.first = 0

    def on_mount(self) -> None:
        """Read the record."""
        self.told = tuple(self._read())

    def _read(self) -> Iterator[tuple[str, str]]:
        """Its lines with their tones; what is wrong with the file comes first."""
        texts, problems = self._job() if self.summary.is_job else self._walk()
        for problem in problems:
            yield problem.sentence(), "trouble" if problem.severity == "error" else "later"
        for place, text in enumerate(texts):
            tone = next((tone for begin, tone in _TONES if text.startswith(begin)), "plain")
            yield text, tone if place else "strong"

    def _walk(self) -> tuple[Sequence[str], Sequence[Problem]]:
        from torqref.sheets.record import record_text
        from torqref.walk.archive import read_record

        record, problems = read_record(self.summary.path)
        self.walk = record
        told = record_text(record, self._notes((record,))(record)) if record is not None else ()
        return tuple(told), problems

    def _job(self) -> tuple[Sequence[str], Sequence[Problem]]:
        from torqref.sheets.job_record import job_text
        from torqref.walk.job_archive import read_job_record

        job, problems = read_job_record(self.summary.path)
        told = job_text(job, self._notes(tuple(job.walks.values()))) if job is not None else ()
        return tuple(told), problems

    def _notes(self, walks: Sequence[Record]) -> Callable[[Record], Sequence[str]]:
        from torqref.sheets.record import notes_by
        from torqref.walk.audit import present_of
        from torqref.walk.summary import walk_summary

        context = self.torqref.context
        return notes_by(present_of(map(walk_summary, walks), context.libraries), context.clock())

    def on_screen_resume(self) -> None:
        """Back from the walk: the record says more now."""
        last, self.torqref.last_words = self.torqref.last_words, ""
        if last:
            self.message, self.refused = f"Walk {last}.", False
            self.told, self.wrapped_for = tuple(self._read()), (0, False)
        self.repaint()

    # --- what is shown --------------------------------------------------------------------------

    def picture(self, width: int, height: int) -> Sequence[Line]:
        """The page that is open; practice values are named on each."""
        said = tuple(self._said(width))
        room = max(1, height - 2 - len(said))
        rows = self._rows(width)
        self.first = max(0, min(self.first, len(rows) - 1))
        last = min(self.first + room, len(rows))
        where = f"record, lines {self.first + 1} to {last} of {len(rows)}"
        practice = PRACTICE.partition(":")[0] if self.summary.invented else ""
        named = where if width > len(where) + len(practice) + 2 else "record"
        top = head(named, practice, width, tone="practice", ascii_only=self.look.ascii_only)
        return (
            fitted(top, width),
            *block(rows[self.first : last], width, max(0, height - 2 - len(said))),
            *said,
            fitted(key_line("more" if last < len(rows) else "back", tuple(self.keys()), width), width),
        )[:height]

    def _rows(self, width: int) -> tuple[Line, ...]:
        """All lines wrapped, once for a width."""
        wanted = (width, self.look.ascii_only)
        if wanted != self.wrapped_for:
            self.wrapped_for = wanted
            self.lines = tuple(self._wrapped(width))
        return self.lines

    def _wrapped(self, width: int) -> Iterator[Line]:
        for text, tone in self.told:
            if not text:
                yield ()
            safe = _GAP.sub(_TIE, shown(text, ascii_only=self.look.ascii_only))
            for ((said, _),) in wrapped(safe, width - 2, tone, indent=2):
                yield Piece(" ", tone), Piece(said.replace(_TIE, " "), tone)

    def _said(self, width: int) -> Iterator[Line]:
        """What became of the last key."""
        tone = "trouble" if self.refused else "strong"
        safe = shown(self.message, ascii_only=self.look.ascii_only)
        for part in wrapped(safe, width - 2, tone):
            yield fitted((Piece(" ", tone), *part), width, tone)

    # --- keys -----------------------------------------------------------------------------------

    def keys(self) -> Sequence[Key]:
        """What can be done with this record."""
        open_ = self.walk is not None and self.walk.is_open and not self.walk.told.damaged
        return (*((GO_ON,) if open_ else ()), BACK, *KEYS)

    def help_lines(self) -> Sequence[str]:
        """What the help says about the text of a record."""
        return HELP

    def moves(self) -> Sequence[Move]:
        """Keys that turn the page."""
        return MOVES

    def _room(self) -> int:
        return max(1, self.size.height - 2 - len(tuple(self._said(self.size.width))))

    def main(self) -> None:
        """The next page; back after the last one."""
        room = self._room()
        if self.first + room < len(self._rows(self.size.width)):
            self.first += room
        else:
            self.leave()

    def special(self, name: str) -> bool:
        """Arrows and page keys turn the page, Escape goes back."""
        room, rows = self._room(), len(self._rows(self.size.width))
        steps = {"up": -1, "down": 1, "pageup": -room, "pagedown": room, "home": -rows, "end": rows}
        if name == "escape":
            self.leave()
        elif name in steps:
            self.first = max(0, min(self.first + steps[name], rows - room))
        return name in steps or name == "escape"

    def do_before(self) -> None:
        """The page before."""
        self.special("pageup")

    def do_page(self) -> None:
        """Write it as a page."""
        from torqref.sheets.export import export_page

        context = self.torqref.context
        self._told(export_page((self.summary,), context.records, context.clock(), context.libraries))

    def do_rows(self) -> None:
        """Write its events as rows."""
        from torqref.sheets.export import export_rows

        self._told(export_rows((self.summary,), self.torqref.context.records, self.torqref.context.clock()))

    def _told(self, export: Export) -> None:
        self.message, self.refused = export.sentence, export.path is None

    def do_go_on(self) -> None:
        """Go on with the walk."""
        if self.walk is None:
            return
        opening = resumed(self.walk, group_today(self.walk, self.torqref.context), self.torqref.context)
        if opening.session is None:
            self.message = opening.refusal.sentence() if opening.refusal else "It cannot be opened."
            self.refused = True
        else:
            self.torqref.show("walk", session=opening.session, notes=opening.notes)
