"""What is heard of a job between its walks: the step, what to do, until when, and what a digit says."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, field
from pathlib import Path

import pytest

from tests.screens.job_stage import Stage, job
from torqref.walk.job_session import JobSession
from torqref.walk.job_spoken import spoken_in_job
from torqref.walk.job_view import job_view

SAFE = '[[step]]\nsafe = "key out"\n'
PAGE = '[[step]]\ntext = "coolant drained"\n[[step]]\ntext = "hoses off"\n'
GAP = '[[step]]\ncheck = "gap"\nband = "0.1–0.3 mm"\n'
GLUE = (
    '[[step]]\nid = "bead"\ntext = "bead laid"\nalone = true\n'
    '[[step]]\ndo = "flange"\nto_stage = 1\nnote = "by two people"\nsince = "bead"\nwithin = "10 min"\n'
)
WAIT = '[[step]]\nwait = "glue set"\ndue = { minutes = 30 }\n'


@dataclass(slots=True)
class Shop:
    """Opens jobs, and closes their files at the end of a test."""

    stage: Stage
    sessions: list[JobSession] = field(default_factory=list)

    def open(self, text: str) -> JobSession:
        """A job whose cautions are still to be read."""
        self.sessions.append(self.stage.open(job(text)))
        return self.sessions[-1]

    def begin(self, text: str) -> JobSession:
        """A job at its first step."""
        session = self.open(text)
        session.do("done")
        return session


@pytest.fixture
def shop(tmp_path: Path) -> Iterator[Shop]:
    made = Shop(Stage(tmp_path))
    yield made
    for session in made.sessions:
        session.close()


def heard(session: JobSession) -> str:
    now, moment = session.clock(), session.moment()
    return spoken_in_job(session.standing, moment, job_view(session.standing, moment, now), now)


def test_every_caution_is_heard_before_the_first_step(shop: Shop) -> None:
    session = shop.open(f'cautions = ["Wear goggles", "Coolant under 40 °C"]\n{SAFE}')
    said = heard(session)
    assert said.startswith("cautions; Wear goggles; Coolant under 40 °C; ")
    assert "licensed practice come first" in said


def test_what_must_be_safe_is_heard_with_its_digits(shop: Shop) -> None:
    said = heard(shop.begin(SAFE))
    assert said == (
        "step 1 of 1; must be safe: key out; 1: it is so now; I looked; 2: not yet: put the job down"
    )


def test_a_page_is_heard_to_its_end(shop: Shop) -> None:
    assert heard(shop.begin(PAGE)) == "step 1 of 1; coolant drained; hoses off"


def test_a_reading_is_heard_with_what_it_must_lie_in_and_again_where_it_does_not(shop: Shop) -> None:
    session = shop.begin(GAP)
    assert heard(session) == "step 1 of 1; measure: gap, wanted 0.1 to 0.3 millimetres"
    session.say("0.4 mm")
    assert heard(session).endswith("; last reading 0.4 millimetres: outside 0.1 to 0.3 millimetres")


def test_a_group_is_heard_with_its_note_and_deadline_and_that_it_is_late(shop: Shop) -> None:
    session = shop.begin(GLUE)
    session.do("done")
    told = "step 2 of 2; tighten: flange, up to stage 1; by two people; until 08:10"
    assert heard(session) == told
    shop.stage.clock.go(minutes=5)
    assert heard(session) == told, "the minutes that are left are not counted aloud"
    shop.stage.clock.go(minutes=6)
    assert heard(session).endswith("; late: was due 08:10")


def test_a_wait_is_heard_with_its_time_by_the_clock(shop: Shop) -> None:
    session = shop.begin(WAIT)
    said = heard(session)
    assert said == "step 1 of 1; wait: glue set; due today 08:30"
    shop.stage.clock.go(minutes=5)
    assert heard(session) == said
    shop.stage.clock.go(minutes=30)
    assert heard(session) == "step 1 of 1; waited: glue set: is it so?"


def test_the_end_says_what_is_left_out_and_how_many_sign(shop: Shop) -> None:
    session = shop.begin(PAGE)
    session.say("skip 1")
    said = heard(session)
    assert said.startswith("sign-off; ")
    assert "left out: step 1, coolant drained; hoses off: not fitted on this one" in said
    assert said.endswith("1 signature to come")
