"""Random commands against a simple model that knows nothing of the code: what is ticked, where, in which order.

The model keeps one list: for each round of the plan the bolts in their order, and the bolts ticked so far.
It knows the four things that a technician relies on: a round begins when the one before it is done, a bolt
counts once a round, undo restores what was before, and what was acknowledged is on disk.
"""

from __future__ import annotations

import tempfile
from dataclasses import dataclass, field
from pathlib import Path

from hypothesis import HealthCheck, settings
from hypothesis import strategies as st
from hypothesis.stateful import RuleBasedStateMachine, initialize, invariant, precondition, rule

from tests.walk.workshop import Clock, Walk, group
from torqref.walk.journal import read_journal
from torqref.walk.progress import fold

ORDERS = ("1 2 3 4 5", "5 3 1 2 4", "1+5 2+4 3")


@dataclass
class Model:
    """Rounds still to do: each a list of visits open, and of those put off."""

    visits: list[tuple[int, ...]]
    rounds: int
    round: int = 0
    open: list[tuple[int, ...]] = field(default_factory=list)
    put_off: list[tuple[int, ...]] = field(default_factory=list)

    def begin(self) -> None:
        self.open, self.put_off = list(self.visits), []

    @property
    def now(self) -> tuple[int, ...] | None:
        """The visit that comes next, None when all is done."""
        straight = [visit for visit in self.open if visit not in self.put_off]
        return next(iter(straight or self.put_off), None)

    def close(self, visit: tuple[int, ...]) -> None:
        self.open.remove(visit)
        if visit in self.put_off:
            self.put_off.remove(visit)
        if not self.open and self.round + 1 < self.rounds:
            self.round += 1
            self.begin()

    def copy(self) -> Model:
        return Model(self.visits, self.rounds, self.round, list(self.open), list(self.put_off))


class WalkMachine(RuleBasedStateMachine):
    """Two hand-free torque rounds at different values, with every word that changes what is ticked."""

    @initialize(order=st.sampled_from(ORDERS))
    def open_walk(self, order: str) -> None:
        self.folder = tempfile.TemporaryDirectory()
        text = f'order = "{order}"\nlayout = {{ circle = 5 }}\n[[group.stage]]\ntorque = "12 N·m"\n[[group.stage]]\ntorque = "24 N·m"\n'
        self.walk = Walk(group(text), Path(self.folder.name), clock=Clock())
        visits = [tuple(int(label) for label in word.split("+")) for word in order.split()]
        self.model = Model(visits, rounds=2)
        self.model.begin()
        self.history: list[Model] = []
        self.acknowledged = 0

    def teardown(self) -> None:
        if hasattr(self, "walk"):
            self.walk.session.close()
            self.folder.cleanup()

    # --- what a person does --------------------------------------------------------------------------

    @rule()
    def main_key(self) -> None:
        self.walk.clock.go(seconds=1)
        before, visit = self.walk.asks, self.walk.bolt
        if self.walk.session.say("").refused:
            assert before in ("finished", "question")
            return
        self.history.append(self.model.copy())
        if before == "bolt":
            assert visit == self.model.now, "the order of the page"
            self.model.close(visit)
        else:
            assert before == "stop"

    @precondition(lambda self: self.walk.asks == "bolt")
    @rule()
    def put_off(self) -> None:
        visit = self.walk.bolt
        refused = bool(self.walk.session.say("later").refused)
        assert refused == (visit in self.model.put_off)
        if not refused:
            self.history.append(self.model.copy())
            self.model.put_off.append(visit)

    @precondition(lambda self: self.walk.asks in ("bolt", "stop") and self.model.open)
    @rule(data=st.data())
    def leave_out(self, data: st.DataObject) -> None:
        visit = data.draw(st.sampled_from(self.model.open))
        if self.walk.asks == "stop" and self.walk.moment.gate == "opening":
            return
        assert not self.walk.session.say(f"skip {visit[0]}").refused
        self.history.append(self.model.copy())
        self.model.close(visit)

    @precondition(lambda self: self.walk.asks == "bolt")
    @rule()
    def tick_the_rest(self) -> None:
        assert not self.walk.session.say("round").refused
        self.history.append(self.model.copy())
        for visit in list(self.model.open):
            self.model.close(visit)

    @rule()
    def undo(self) -> None:
        refused = bool(self.walk.say("undo"))
        assert refused == (not self.history)
        if not refused:
            self.model = self.history.pop()

    @rule(words=st.sampled_from(["note rusty", "found 20 N·m"]))
    def remark(self, words: str) -> None:
        if not self.walk.say(words):
            self.history.append(self.model.copy())

    @rule(words=st.sampled_from(["skip 9", "1", "nonsense", "moved", "measure 1 mm", "trouble 99", ""]))
    def what_does_not_fit(self, words: str) -> None:
        if words == "" and self.walk.asks != "finished":
            return
        before = self.walk.events
        assert self.walk.say(words)
        assert self.walk.events == before

    @rule(minutes=st.sampled_from([1, 14, 16, 600]))
    def time_passes(self, minutes: int) -> None:
        self.walk.clock.go(minutes=minutes)

    @rule(minutes=st.sampled_from([0, 5, 600, -30]), properly=st.booleans())
    def begin_again(self, minutes: int, properly: bool) -> None:
        """The program is put down or breaks off, and is started again."""
        if self.walk.session.progress.finished:
            return
        if properly:
            self.walk.say("pause")
        self.walk.again(minutes=minutes)

    # --- what always holds ---------------------------------------------------------------------------

    @invariant()
    def the_fold_is_the_model(self) -> None:
        progress = self.walk.session.progress
        done = not self.model.open
        assert progress.finished == done
        if done:
            return
        assert progress.round == self.model.round, "no step before the round before it is closed"
        steps = progress.current.steps if progress.current else ()
        assert [steps[at].labels for at in progress.open_steps] == [
            visit for visit in self.model.visits if visit in self.model.open
        ]
        assert steps[progress.step].labels == self.model.now

    @invariant()
    def what_was_acknowledged_is_on_disk(self) -> None:
        told = read_journal(self.walk.session.journal.path)
        assert not told.problems
        assert told.events == self.walk.events
        assert fold(self.walk.session.header.plan, told.events) == self.walk.session.progress
        ticks = sum(event.kind == "check-off" for event in told.events)
        assert ticks >= self.acknowledged, "the record never loses a tick, taken back or not"
        self.acknowledged = ticks


TestWalkMachine = WalkMachine.TestCase
TestWalkMachine.settings = settings(
    max_examples=80,
    stateful_step_count=40,
    deadline=None,
    suppress_health_check=[HealthCheck.too_slow, HealthCheck.filter_too_much],
)
