"""The plan of a job: its steps in order, settled when it is opened and kept whole in its journal.

Group steps hold only which group and how far: each walk keeps its own plan in its own journal.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from fractions import Fraction

from torqref.library.item import Facts, Item, Notice
from torqref.quantity.term import Measure

TIGHTEN, LOOSEN = "tighten", "loosen"
# Kinds of a planned step: `page` gathers texts that share one press.
KINDS = ("safe", "alone", "page", "group", "check", "wait")


@dataclass(frozen=True, slots=True, kw_only=True)
class JobStep:
    """One thing the job asks, with its own press or its own walk.

    Args:
        number: running number from 1.
        kind: one of `KINDS`.
        lines: the words; several for a page.
        group, name: the group of a `group` step and its name on the page.
        place, action: as for a walk.
        to_stage: last stage to walk now, 0 for all that is left.
        wrench, adapter: tools of the rack that the file asks for.
        band: what a reading must lie in; None where a look is enough.
        drag_of: the group whose locking drag this reading is.
        due_minutes, due: when a wait is over, and in words.
        within: minutes in which the step must be done, counted from the end of step `since`.
        since: number of that step, 0 for none.
        needs: numbers of the steps that must be done first.
        applies: facts of the vehicle it is for.
        note: what to mind.
        sources: where it stands.
    """

    number: int
    kind: str
    lines: tuple[str, ...]
    group: str = ""
    name: str = ""
    place: str = ""
    action: str = TIGHTEN
    to_stage: int = 0
    wrench: str = ""
    adapter: str = ""
    band: Measure | None = None
    drag_of: str = ""
    due_minutes: Fraction | None = None
    due: str = ""
    within: Fraction | None = None
    since: int = 0
    needs: tuple[int, ...] = ()
    applies: Facts = ()
    note: str = ""
    sources: tuple[str, ...] = ()

    @property
    def walk(self) -> str:
        """Which walk a group step goes on: steps of the same group, place and action share one."""
        return "|".join((self.group, self.place, self.action))

    @property
    def title(self) -> str:
        """The step in one line."""
        if self.kind != "group":
            return "; ".join(self.lines)
        loosen = "loosen " if self.action == LOOSEN else ""
        place = f", {self.place}" if self.place else ""
        stage = f", up to stage {self.to_stage}" if self.to_stage else ""
        return f"{loosen}{self.name}{place}{stage}"


@dataclass(frozen=True, slots=True, kw_only=True)
class JobRecheck:
    """What stays due after sign-off: what, when, and what a reading must lie in."""

    text: str
    due: str
    due_minutes: Fraction | None = None
    band: Measure | None = None
    owner: bool = False
    source: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class JobPlan:
    """Everything a job asks, in order.

    Args:
        job, name, assembly: what is done, and to what.
        steps: what to do.
        facts: what is asked about the vehicle, each with its possible words; one word is known.
        parts, fluids: what was laid out.
        rechecks: what stays due after sign-off.
        cautions: cautions of the whole job.
        source, sources: of the job and of its groups, as lines.
        invented: practice values, to be said everywhere.
        signatures: how many different people sign.
    """

    job: str
    name: str
    steps: tuple[JobStep, ...]
    assembly: str = ""
    facts: Facts = ()
    parts: tuple[Item, ...] = ()
    fluids: tuple[Item, ...] = ()
    rechecks: tuple[JobRecheck, ...] = ()
    cautions: tuple[Notice, ...] = ()
    source: str = ""
    sources: tuple[str, ...] = ()
    invented: bool = False
    signatures: int = 1

    def step(self, number: int) -> JobStep | None:
        """The step with this number, or None."""
        return self.steps[number - 1] if 1 <= number <= len(self.steps) else None


def fits(step: JobStep, facts: Mapping[str, str]) -> bool:
    """Whether a step is for this vehicle; a fact that nobody knows keeps nothing away."""
    return all(facts.get(name, words[0]) in words for name, words in step.applies if words)
