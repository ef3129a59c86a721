"""A job that is open: its journal, its progress and the walks of its groups, kept in step.

A front end asks `moment` and `view`; at a `group` moment it opens the walk with `enter`, walks it as any
walk until `is_over`, and gives it back with `leave`. Everything else is `press` and `say`.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass, replace
from datetime import datetime, timedelta
from pathlib import Path

from torqref.document.refusal import Refusal
from torqref.library.group import Group
from torqref.walk.archive import Record, read_record
from torqref.walk.attempt import No
from torqref.walk.bounce import BOUNCE
from torqref.walk.event import Event
from torqref.walk.fitted import adapter_of
from torqref.walk.job_command import JobAct, act_in_job, job_consequences, lateness, told_in_job
from torqref.walk.job_moment import JobMoment, job_moment
from torqref.walk.job_plan import JobPlan, JobStep
from torqref.walk.job_progress import UNDOABLE, JobProgress, apply_job, fold_job, undone_in_job
from torqref.walk.job_standing import Standing, has_passed
from torqref.walk.journal import ENDING, Header, Journal, JournalError
from torqref.walk.opening import Opening, Request, open_group, resume
from torqref.walk.plan import Plan
from torqref.walk.planner import Bench, fingerprint
from torqref.walk.progress import UNDOABLE as WALK_UNDOABLE
from torqref.walk.progress import Progress, undone_numbers
from torqref.walk.session import Reply, Session, is_reading
from torqref.wrench.rack import Rack

_SIGNS = ("-", "−", "+")


@dataclass(frozen=True, slots=True, kw_only=True)
class Bay:
    """Where a job is worked on.

    Args:
        folder: the folder of records.
        name: the name of this machine.
        groups: the groups of the library that the job names.
        rack: the wrenches and adapters at hand.
    """

    folder: Path
    name: str
    groups: Mapping[str, Group]
    rack: Rack


@dataclass(slots=True)
class JobSession:
    """One open job.

    Args:
        header: which job it is.
        plan: what is done.
        journal: where its events are kept.
        bay: where it is worked on.
        clock: gives the time with its offset to UTC.
        by: who works, empty if unknown.
        events: all events so far.
        progress: their fold.
        walks: progress of its walks by id.
        last_main: when the main key was pressed last.
        entered: the group step whose walk was opened last.
    """

    header: Header
    plan: JobPlan
    journal: Journal
    bay: Bay
    clock: Callable[[], datetime]
    by: str
    events: tuple[Event, ...]
    progress: JobProgress
    walks: dict[str, Progress]
    last_main: datetime | None = None
    entered: JobStep | None = None

    @classmethod
    def start(
        cls,
        header: Header,
        journal: Journal,
        bay: Bay,
        clock: Callable[[], datetime],
        by: str,
        events: tuple[Event, ...] = (),
        walks: Mapping[str, Progress] | None = None,
    ) -> JobSession:
        """Open a job, new or gone on with; the opening itself is an event.

        Raises:
            JournalError: the opening cannot be kept.
            ValueError: the header is that of a walk.
        """
        plan = header.job
        if plan is None:
            raise ValueError("the journal of a job holds a job")
        progress = fold_job(plan, events, header.work_order)
        session = cls(header, plan, journal, bay, clock, by, events, progress, dict(walks or {}))
        opening: tuple[Event, ...] = (Event(kind="opened"),)
        if progress.by and by and by != progress.by:
            opening = (*opening, Event(kind="hand-over", text=f"from {progress.by} to {by}"))
        session._keep(opening)
        session._follow_up()
        return session

    @property
    def standing(self) -> Standing:
        """Where every step stands."""
        return Standing(progress=self.progress, walks=self.walks)

    def moment(self) -> JobMoment:
        """What is asked for now."""
        return job_moment(self.standing, self.clock())

    # --- between the walks --------------------------------------------------------------------------

    def say(self, line: str) -> Reply:
        """One line of a person: empty is the main key, else a word and its argument.

        Where a reading is asked for, a line that begins with a number is the reading.
        """
        word, _, argument = line.strip().partition(" ")
        if self.moment().kind == "reading" and (is_reading(line.strip()) or word[:1] in _SIGNS):
            return self.do("measure", line)
        return self.do(word or "done", argument)

    def press(self, word: str = "done", seen: JobMoment | None = None) -> Reply:
        """The main key or a digit as a key sends it: a bounce is ignored, and told.

        A key that is held down must not say of four steps that each is safe.

        Args:
            word: `done`, or the digit.
            seen: what was shown when the key was pressed; where time has changed it, nothing is done.
        """
        now, before, moment = self.clock(), self.last_main, self.moment()
        if seen is not None and seen != moment:
            return Reply(refused="Time has passed: look again, then press.")
        self.last_main = now
        if before is not None and timedelta(0) <= now - before < BOUNCE:
            asked = f" Step {moment.step.number} is still asked for." if moment.step else ""
            return Reply(refused=f"Double press ignored.{asked}")
        return self.do(word)

    def do(self, word: str, argument: str = "") -> Reply:
        """One command between the walks: its events are on disk when this returns, or it says why not."""
        act = JobAct(
            standing=self.standing,
            moment=self.moment(),
            argument=argument.strip(),
            by=self.by,
            now=self.clock(),
            events=self.events,
        )
        if word == "undo" and not self.progress.signed and (walk := self._last_walk()) is not None:
            return self._undo_in(walk)
        answer = act_in_job(word, act)
        if isinstance(answer, No):
            return Reply(refused=answer.message)
        try:
            kept = self._keep(answer)
            self._follow_up()
        except JournalError as error:
            return Reply(refused=str(error))
        return Reply(events=kept, told=told_in_job(kept))

    def _keep(self, events: tuple[Event, ...]) -> tuple[Event, ...]:
        stamped = tuple(
            replace(event, time=self.clock().isoformat(timespec="milliseconds"), by=event.by or self.by)
            for event in events
        )
        kept = self.journal.keep(stamped)
        self.events += kept
        if any(event.kind == "undo" for event in kept):
            self.progress = fold_job(self.plan, self.events, self.header.work_order)
        else:
            for event in kept:
                self.progress = apply_job(self.progress, event)
        return kept

    def _follow_up(self) -> None:
        following = job_consequences(self.standing, self.clock())
        if following:
            self._keep(following)

    # --- the walks ----------------------------------------------------------------------------------

    def enter(self) -> Opening:
        """Open the walk of the group step that comes now; the job's journal says which walk it is."""
        step = self.moment().step
        if step is None or step.kind != "group":
            return Opening(refusal=Refusal(text="", message="no group comes now"))
        self.entered = step
        known = self.progress.walks.get(step.walk)
        opening = self._go_on(step, known) if known is not None else self._begin(step)
        if opening.session is not None:
            # The key that opened the walk must not by a bounce open its first stop, too.
            opening.session.last_main = self.clock()
        return opening

    def _begin(self, step: JobStep) -> Opening:
        """A new walk for a step; with a work order the open one of that order goes on."""
        group = self.bay.groups.get(step.group)
        if group is None:
            message = f"the library no longer has the group {step.group}"
            return Opening(refusal=Refusal(text=step.group, message=message))
        bench = self._bench(step)
        if isinstance(bench, Refusal):
            return Opening(refusal=bench)
        request = replace(self._request(), new=not self.progress.work_order)
        opening = open_group(quieted(group, self.acknowledged()), bench, request, self.clock)
        return self._noted(step, opening)

    def _noted(self, step: JobStep, opening: Opening) -> Opening:
        """Keep which walk a step goes on; where that cannot be kept, the walk is not walked."""
        if opening.session is None:
            return opening
        try:
            name = opening.session.header.id
            self._keep((Event(kind="walk", round=step.number, gate=step.walk, text=name),))
        except JournalError as error:
            opening.session.close()
            return Opening(refusal=Refusal(text=step.group, message=str(error).rstrip(".")))
        self.walks[name] = opening.session.progress
        return opening

    def _go_on(self, step: JobStep, name: str) -> Opening:
        record = self._record(name)
        if record is None:
            message = f"the record {name} of this step is not there"
            mend = (f"again {step.number}",)
            return Opening(refusal=Refusal(text=step.group, message=message, readings=mend))
        opening = resume(record, self._request(), self.clock, self.bay.rack)
        group = self.bay.groups.get(step.group)
        plan = record.header.plan
        if group is None or fingerprint(quieted_like(group, plan)) == plan.fingerprint:
            return opening
        told = "The library has changed since this walk began: it goes on by its own plan."
        return replace(opening, notes=(*opening.notes, told))

    def is_over(self, walk: Session) -> bool:
        """Whether the step of this walk is done, put off or at a wait, so that the job goes on."""
        stage = self.entered.to_stage if self.entered else 0
        elsewhere = self.entered is None or self.moment().step != self.entered
        due = walk.progress.due
        # A wait without a time is answered in the walk; one with a time keeps nobody from other steps.
        waiting = bool(due) and datetime.fromisoformat(due) > self.clock()
        return elsewhere or waiting or has_passed(walk.progress, stage)

    def follow(self, walk: Session) -> None:
        """Take note of how far a walk is, for whoever looks at the job while it is walked."""
        self.walks[walk.header.id] = walk.progress

    def leave(self, walk: Session) -> str:
        """Take a walk back into the job, wherever it stands, and give its journal free.

        Returns:
            Empty, or why the time of a finished part could not be kept; the part itself stands in its walk.
        """
        before = {step.number for step in self.standing.open_steps}
        self.last_main = walk.last_main or self.last_main
        self.follow(walk)
        walk.close()
        over = [step for step in self.plan.steps if step.number in before and self.standing.is_over(step)]
        # Only the time is kept here: whether a part is done is asked of its walk every time.
        try:
            self._keep(tuple(Event(kind="part", round=step.number, text=self._late(step)) for step in over))
            self._follow_up()
        except JournalError as error:
            return str(error)
        return ""

    def _late(self, step: JobStep) -> str:
        return lateness(self.standing, step, self.clock())

    def acknowledged(self) -> frozenset[str]:
        """Cautions that had a press of their own in this job: none is asked for twice."""
        done = (step for step in self.plan.steps if step.number in self.progress.done)
        own = {line for step in done for line in step.lines}
        walked = {
            text
            for walk in self.walks.values()
            for place, text in enumerate(walk.plan.alone)
            if f"caution:{place}" in walk.gates
        }
        return frozenset(own | walked)

    def _request(self) -> Request:
        return Request(
            folder=self.bay.folder,
            bay=self.bay.name,
            work_order=self.progress.work_order,
            by=self.by,
            job=self.header.id,
        )

    def _bench(self, step: JobStep) -> Bench | Refusal:
        from torqref.quantity.reading import read_torque

        words = self.progress.adapters.get(step.number, step.adapter)
        fitted = adapter_of("" if words == "none" else words, self.bay.rack)
        if isinstance(fitted, Refusal):
            return replace(fitted, readings=(*fitted.readings, "adapter 32 mm@90", "adapter none"))
        drag = read_torque(text) if (text := self._drag(step.group)) else None
        return Bench(
            today=self.clock().date(),
            rack=self.bay.rack,
            wrench=step.wrench,
            parts=fitted.parts,
            adapter=fitted.words,
            place=step.place,
            action=step.action,
            drag=None if isinstance(drag, Refusal) else drag,
        )

    def _drag(self, group: str) -> str:
        """The measured drag of a group's locking nuts, as it was read."""
        for step in self.plan.steps:
            value, outside = self.progress.readings.get(step.number, ("", ""))
            if step.drag_of == group and value and not outside:
                return value
        return ""

    def _record(self, name: str) -> Record | None:
        return read_record(self.bay.folder / f"{name}{ENDING}")[0]

    # --- undo ---------------------------------------------------------------------------------------

    def _last_walk(self) -> Record | None:
        """The walk in which the very last press was made, None where it was made between the walks."""
        gone = undone_in_job(self.events)
        own = [event.time for event in self.events if event.kind in UNDOABLE and event.number not in gone]
        newest, found = (datetime.fromisoformat(own[-1]) if own else None), None
        for name in self.progress.walks.values():
            record = self._record(name)
            time = _last_press(record.told.events) if record else None
            if time is not None and (newest is None or time > newest):
                newest, found = time, record
        return found

    def _undo_in(self, record: Record) -> Reply:
        """Take back the last press of a walk that the job has just left."""
        opening = resume(record, self._request(), self.clock, self.bay.rack)
        if opening.session is None:
            return Reply(refused=opening.refusal.sentence() if opening.refusal else "Nothing to undo.")
        reply = opening.session.do("undo")
        told = self.leave(opening.session)
        return Reply(refused=told) if told else reply

    def close(self) -> None:
        """Give the journal free; what is not finished goes on another time."""
        self.journal.close()


def _last_press(events: tuple[Event, ...]) -> datetime | None:
    gone = undone_numbers(events)
    times = [event.time for event in events if event.kind in WALK_UNDOABLE and event.number not in gone]
    return datetime.fromisoformat(times[-1]) if times else None


def quieted(group: Group, acknowledged: frozenset[str]) -> Group:
    """The group without the cautions that already had a press of their own in this job."""
    return replace(group, cautions=tuple(each for each in group.cautions if each.text not in acknowledged))


def quieted_like(group: Group, plan: Plan) -> Group:
    """The group with the cautions its plan was made with, to tell whether its file has changed since."""
    kept = {*plan.cautions, *plan.alone}
    return replace(group, cautions=tuple(each for each in group.cautions if each.text in kept))
