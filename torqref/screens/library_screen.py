"""The library: type to find, enter to walk; what is open or due stands on top."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from pathlib import Path
from time import monotonic
from typing import TYPE_CHECKING

from textual import events
from textual.worker import get_current_worker

from torqref.document.problem import Problem
from torqref.screens.field import Field
from torqref.screens.fields_screen import FieldsScreen
from torqref.screens.key import Key, Move
from torqref.screens.library_keys import FIRST, HELP, KEYS, MOVES
from torqref.screens.library_panel import Showing, digits_of, paint_library, room_for_rows, window_top
from torqref.screens.library_read import LibraryRead
from torqref.screens.library_rows import Rows, fitting, fitting_repairs, typed_of
from torqref.screens.line import Line
from torqref.screens.resuming import GO_ON, TAKE_OVER, begun_job, request_of, resumed, resumed_job

if TYPE_CHECKING:
    from torqref.library.group import Group
    from torqref.library.job import Job
    from torqref.library.search import Index
    from torqref.walk.job_opening import JobOpening
    from torqref.walk.open_job import OpenJob
    from torqref.walk.opening import Opening
    from torqref.walk.standing import Standing

# What enter does at a row; at any other it walks.
_MAIN = {
    "open": "go on", "job": "go on", "problem": "all problems", "repair": "begin", "nothing": "nothing",
}  # fmt: skip
# How often a large library that is still being read is shown with what is there so far.
_SHOW_EVERY = 0.4


class LibraryScreen(FieldsScreen):
    """All groups, open walks and due items; read after the first paint."""

    name_shown = "library"
    main_help = "walk the group that is marked, or go on with the open walk"

    def __init__(self) -> None:
        """An empty list; what belongs in it is read after the first paint."""
        super().__init__((Field(name="find", label="find", hint="a name, M8, 24 Nm"),))
        self.index: Index | None = None
        self.problems: tuple[Problem, ...] = ()
        self.repairs: tuple[Job, ...] = ()
        self.record_problems: tuple[Problem, ...] = ()
        self.jobs: tuple[OpenJob, ...] = ()
        self.standings: tuple[Standing, ...] = ()
        self.begun, self.reading = False, True
        self.read_at = 0.0
        self.rows = Rows()
        self.selected = self.top = 0
        self.moved_by_hand = False
        self.choosing: tuple[str, ...] = ()
        self.loosen = False
        self.first_run = False
        self.opened = "Walk"

    # --- reading --------------------------------------------------------------------------------

    def on_mount(self) -> None:
        """First what is open, then the library, both after the first paint."""
        self.call_after_refresh(self.read_all)

    def read_all(self) -> None:
        """The walks that are open; the library in a thread of its own."""
        self.begun = True
        self.read_records()
        self.read_at = self._drafted()
        self.reading = True
        self.run_worker(self.read_library, thread=True, exclusive=True)

    def read_records(self) -> None:
        """The jobs and walks that are open, and where they stand now; a job stands for its own walks."""
        from torqref.walk.archive import journals, open_records
        from torqref.walk.open_job import open_jobs
        from torqref.walk.standing import in_order, standing

        context = self.torqref.context
        found, self.record_problems = open_records(context.records)
        self.first_run = not context.rack.wrenches and next(journals(context.records), None) is None
        now = context.clock()
        self.jobs = open_jobs(context.records, now, context.bay)
        held = {job.record.header.id for job in self.jobs}
        alone = (record for record in found if record.header.of_job not in held)
        self.standings = in_order(tuple(standing(record, now, context.bay) for record in alone))
        self.list_anew()
        self.repaint()

    def read_library(self) -> None:
        """Every file of the library; what is there so far is shown meanwhile."""
        from torqref.library.job_shelf import read_jobs
        from torqref.library.search import Index
        from torqref.library.shelf import read_shelf

        worker, last = get_current_worker(), monotonic()

        def heard(groups: Mapping[str, Group]) -> bool:
            nonlocal last
            if not worker.is_cancelled and monotonic() - last > _SHOW_EVERY:
                last = monotonic()
                self.post_message(LibraryRead(Index().grown(groups.values())))
            return not worker.is_cancelled

        shelf = read_shelf(self._folders(), heard)
        repairs, told = read_jobs(self._folders())
        if not worker.is_cancelled:
            index, problems = Index().grown(shelf.groups.values()), (*shelf.problems, *told)
            self.post_message(LibraryRead(index, problems, repairs, ready=True))

    def _folders(self) -> tuple[Path, ...]:
        """The library folders, and the user's own where a first draft has just made it."""
        context = self.torqref.context
        known, own = context.libraries, context.own_specs
        return (*known[:1], own, *known[1:]) if own not in known and self._drafted() else known

    def _drafted(self) -> float:
        """When something was last put into the user's own folder; 0 where there is none."""
        own = self.torqref.context.own_specs
        return own.stat().st_mtime if own != Path() and own.is_dir() else 0.0

    def on_library_read(self, message: LibraryRead) -> None:
        """Show what the library holds, as far as it is read."""
        message.stop()
        self.index, self.problems, self.reading = message.index, message.problems, not message.ready
        self.repairs = message.repairs if message.ready else self.repairs
        self.list_anew()
        self.repaint()

    def on_screen_resume(self) -> None:
        """Back from another screen: after a walk the list begins anew, with where that walk stands."""
        last, self.torqref.last_words = self.torqref.last_words, ""
        if last:
            self.special("ctrl+u")
            ended = " Its record: press :" if last == "finished" else ""
            self.message, self.refused = f"{self.opened} {last}.{ended}", False
            self.opened = "Walk"
        if not self.begun:
            return
        if self._drafted() > self.read_at:
            self.read_all()
        else:
            self.read_records()

    # --- listing --------------------------------------------------------------------------------

    def changed(self) -> None:
        """Other words: another list, from its first row."""
        self.moved_by_hand = False
        self.list_anew()

    def list_anew(self) -> None:
        """What fits the words now; a mark that was moved by hand stays on its row."""
        text = self.text("find")
        here = self.rows.key(self.selected) if self.moved_by_hand else None
        told = sorted((*self.record_problems, *self.problems), key=lambda each: each.severity != "error")
        begun = len(self.jobs) + len(self.standings)
        self.rows = Rows(
            jobs=fitting(self.jobs, text, total=begun),
            standings=fitting(self.standings, text, len(self.jobs), begun),
            problems=() if text.strip() else tuple(each for each in told if each.severity != "hint"),
            typed=typed_of(text),
            repairs=fitting_repairs(self.repairs, text),
            groups=tuple(match.group for match in self.index.search(text)) if self.index is not None else (),
        )
        places = (place for place in range(len(self.rows)) if self.rows.key(place) == here)
        self.selected = next(places, self.rows.first) if here is not None else self.rows.first

    def picture(self, width: int, height: int) -> Sequence[Line]:
        """The list as far as there is room for it."""
        room = room_for_rows(height)
        self.top = window_top(self.selected, self.top, room, len(self.rows))
        kind = self.rows.kind(self.selected)
        main = _MAIN.get(kind, "walk")
        showing = Showing(
            filter=self.field_lines(width)[0],
            rows=self.rows,
            selected=self.selected,
            top=self.top,
            count=self._count(),
            options=self._options(),
            ask=self._ask(),
            message=self.message,
            hint=self._first(),
            refused=self.refused,
            keys=self.key_line(width, main),
            ascii_only=self.look.ascii_only,
            reading=self.reading,
            room=room,
        )
        return paint_library(showing, width, height)

    def _first(self) -> str:
        """What to do, until something is typed or marked, or was walked."""
        begun = self.moved_by_hand or bool(self.text("find")) or bool(self.choosing)
        return FIRST if self.first_run and not begun else ""

    def _count(self) -> str:
        fitting, all_ = len(self.rows.groups), len(self.index.entries) if self.index is not None else 0
        if self.reading:
            return f"reading, {all_} groups so far"
        return f"{fitting} of {all_} groups" if fitting != all_ else f"{all_} groups"

    def _options(self) -> tuple[tuple[str, str], ...]:
        every = (("enter", "all, one after the other"),) if self.rows.group(self.selected) else ()
        return (*digits_of(self.choosing), *every) if self.choosing else ()

    def _ask(self) -> str:
        begun = self.rows.standing(self.selected) or self.rows.job(self.selected)
        if begun is not None:
            what = self.rows.kind(self.selected).replace("open", "walk")
            return f"Bay {begun.elsewhere} has this {what}; take it over?"
        if self.rows.kind(self.selected) == "repair":
            return "This repair is open already."
        return "LOOSEN which place?" if self.loosen else "Which place?"

    # --- keys -----------------------------------------------------------------------------------

    def keys(self) -> Sequence[Key]:
        """Signs for what can be done beside typing."""
        return KEYS

    def moves(self) -> Sequence[Move]:
        """Keys that move the mark, and those that edit."""
        return (MOVES, *super().moves())

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
        number = "123456789".find(event.character) if event.character else -1
        if 0 <= number < len(choices):
            self._chosen(choices[number])
        elif event.key == "enter" and self.rows.group(self.selected):
            self._open("")

    def _chosen(self, choice: str) -> None:
        standing, job = self.rows.standing(self.selected), self.rows.job(self.selected)
        repair = self.rows.repair(self.selected)
        if repair is not None and choice == GO_ON[0]:
            self._go_on_with(self._open_ones(repair)[0])
        elif repair is not None:
            self._begin(repair)
        elif standing is None and job is None:
            self._open(choice)
        elif choice == TAKE_OVER[0] and standing is not None:
            self._resume(standing)
        elif job is not None and choice == TAKE_OVER[0]:
            self._go_on_with(job)

    def special(self, name: str) -> bool:
        """Arrows and page keys move the mark."""
        room = room_for_rows(self.size.height)
        steps = {"up": -1, "down": 1, "pageup": -room, "pagedown": room}
        far = {"home": 0, "end": len(self.rows) - 1}
        if name not in steps and name not in far:
            return name not in ("tab", "shift+tab") and super().special(name)
        place = far.get(name, self.selected + steps.get(name, 0))
        self.selected = max(0, min(place, len(self.rows) - 1))
        self.moved_by_hand = True
        return True

    def main(self) -> None:
        """Open the row that is marked."""
        self.loosen = False
        self._enter()

    def do_loosen(self) -> None:
        """Open the group that is marked for loosening."""
        if self.rows.group(self.selected) is None:
            self._refuse("Only a group is loosened: mark one first.")
            return
        self.loosen = True
        self._enter()

    def _enter(self) -> None:
        standing, group = self.rows.standing(self.selected), self.rows.group(self.selected)
        kind, job = self.rows.kind(self.selected), self.rows.job(self.selected)
        if kind == "quick":
            self.do_quick()
        elif kind == "problem":
            self.torqref.show("problems", problems=self.rows.problems)
        elif (begun := standing or job) is not None and begun.elsewhere:
            self.choosing = TAKE_OVER
        elif standing is not None:
            self._resume(standing)
        elif job is not None:
            self._go_on_with(job)
        elif (repair := self.rows.repair(self.selected)) is not None and self._open_ones(repair):
            self.choosing = GO_ON
        elif repair is not None:
            self._begin(repair)
        elif group is not None and len(group.places) > 1:
            self.choosing = group.places[:9]
        elif group is not None:
            self._open("")

    def do_quick(self) -> None:
        """The quick walk, with the value where one is typed already."""
        self.torqref.show("quick", text=self._value())

    def do_records(self) -> None:
        """The walks and jobs so far."""
        self.torqref.show("record")

    def do_convert(self) -> None:
        """The value in other units."""
        self.torqref.show("convert", text=self._value())

    def do_crowfoot(self) -> None:
        """What to set with a crowfoot."""
        self.torqref.show("crowfoot")

    def _value(self) -> str:
        return self.text("find") if self.rows.typed is not None else ""

    # --- opening --------------------------------------------------------------------------------

    def _resume(self, standing: Standing) -> None:
        """Go on with a walk; what its library file says other since is asked about in it."""
        record = standing.record
        group = None if record.header.plan.typed else self._group_of(record.header.plan.group)
        self._opened(resumed(record, group, self.torqref.context))

    def _go_on_with(self, job: OpenJob) -> None:
        """Go on with a job where it stands."""
        self._opened(resumed_job(job.record, self._folders(), self.torqref.context), "job")

    def _open_ones(self, repair: Job) -> list[OpenJob]:
        """The open jobs of this bay that were begun by the same file."""
        return [job for job in self.jobs if job.record.plan.job == repair.id and not job.elsewhere]

    def _begin(self, repair: Job) -> None:
        """Begin a job by its file; one with faults tells them."""
        begun = begun_job(repair.file, self._folders(), self.torqref.context)
        if isinstance(begun, tuple):
            self.torqref.show("problems", problems=begun)
        else:
            self._opened(begun, "job")

    def _group_of(self, identity: str) -> Group | None:
        """A group by its id; its own file is looked for while the library is still being read."""
        if self.index is not None and not self.reading:
            return next((entry.group for entry in self.index.entries if entry.id == identity), None)
        from torqref.library.shelf import find_group

        return find_group(identity, self._folders())[0]

    def _open(self, place: str) -> None:
        from torqref.walk.opening import open_group
        from torqref.walk.planner import LOOSEN, TIGHTEN, Bench

        group, context = self.rows.group(self.selected), self.torqref.context
        if group is None:
            return
        action = LOOSEN if self.loosen else TIGHTEN
        bench = Bench(today=context.clock().date(), rack=context.rack, place=place, action=action)
        self._opened(open_group(group, bench, request_of(context), context.clock))

    def _opened(self, opening: Opening | JobOpening, screen: str = "walk") -> None:
        if opening.session is None:
            self._refuse(opening.refusal.sentence() if opening.refusal else "It cannot be opened.")
        else:
            self.opened = screen.capitalize()
            self.torqref.show(screen, session=opening.session, notes=opening.notes)

    def _refuse(self, message: str) -> None:
        self.message, self.refused = message, True
