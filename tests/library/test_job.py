"""Job files: what they say is read, what they name must exist, and every fault is told with its mend."""

from __future__ import annotations

from fractions import Fraction
from pathlib import Path

import pytest
import tomli

from torqref.document.problem import Problem
from torqref.document.toml import Document, parse_document
from torqref.library.job import Job, is_job, job_of, read_job
from torqref.library.job_check import check_job
from torqref.library.shelf import find_groups, shipped_folder

ROOT = Path(__file__).parents[2]
DEMO = ROOT / "demo" / "brindle-24-head.job.toml"
THEMES = tomli.loads((Path(__file__).parent / "published_cautions.toml").read_text(encoding="utf-8"))["theme"]
HEAD = 'format = 1\njob = "small"\n'


def read(text: str) -> tuple[Job | None, tuple[Problem, ...]]:
    document = parse_document((HEAD + text).encode(), "small.job.toml")
    assert isinstance(document, Document)
    return job_of(document)


def job(text: str) -> Job:
    found, problems = read(text)
    assert found is not None, [problem.sentence() for problem in problems]
    assert problems == ()
    return found


def demo() -> Job:
    found, problems = read_job(DEMO)
    assert found is not None, [problem.sentence() for problem in problems]
    assert problems == ()
    return found


# --- the demo ---------------------------------------------------------------------------------------


def test_the_demo_names_only_groups_that_are_there_and_finishes_each() -> None:
    found = demo()
    groups, problems = find_groups(found.groups, (shipped_folder(),))
    assert set(groups) == set(found.groups)
    assert not problems
    assert check_job(found, groups) == ()


def test_the_demo_has_what_a_repair_has() -> None:
    """Ten groups and the studs, taking turns, with lengths, marks, drag, a deadline and a left-hand nut."""
    found = demo()
    groups, _ = find_groups(found.groups, (shipped_folder(),))
    assert len(found.groups) == 12  # the pump of the other engine among them
    turns = [step.text for step in found.steps if step.kind == "do"]
    assert turns.count("exhaust-manifold") == 3
    assert turns.count("down-pipe-bracket") == 2
    assert any(fastener.length for fastener in groups["coolant-pump"].fasteners)
    assert groups["cylinder-head"].second_check == "marks"
    assert groups["fan-hub"].left_hand
    assert any(step.drag_of == "exhaust-manifold" for step in found.steps)
    assert any(step.within == 10 for step in found.steps)
    one_time = [part for group in groups.values() for part in group.parts if part.one_time]
    assert len(one_time) >= 8


def test_everything_that_must_be_safe_comes_before_everything_else() -> None:
    kinds = [step.kind for step in demo().steps]
    assert kinds[:4] == ["safe"] * 4
    assert "safe" not in kinds[4:]


def test_the_demo_is_marked_as_invented() -> None:
    assert demo().source.invented


@pytest.mark.parametrize("theme", THEMES, ids=[theme["about"][:40] for theme in THEMES])
def test_the_demo_warns_of_what_published_manuals_warn_of(theme: dict[str, object]) -> None:
    """One text of the job holds every word of the theme; the sources are in the data beside this test."""
    found = demo()
    texts = [caution.text for caution in found.cautions]
    texts += [f"{step.text} {step.note}" for step in found.steps if step.kind in ("safe", "text")]
    words = theme["words"]
    assert isinstance(words, list)
    assert any(all(word in text.casefold() for word in words) for text in texts), theme["about"]


# --- reading ----------------------------------------------------------------------------------------


def test_every_kind_of_step_is_read_with_its_own_keys() -> None:
    found = job(
        '[facts]\nengine = ["Q", "R"]\n'
        '[[step]]\nid = "a"\nsafe = "key out"\nsource = "sheet 1"\n'
        '[[step]]\ntext = "look"\nalone = true\nnote = "from below"\n'
        '[[step]]\ndo = "cover"\nto_stage = 2\nplace = "left"\nwrench = "W1"\nadapter = "flare-17@90"\n'
        'needs = ["a"]\napplies = { engine = ["Q"] }\n'
        '[[step]]\ncheck = "drag"\nband = ">= 1.5 N·m"\ndrag_of = "cover"\n'
        '[[step]]\nwait = "cold"\ndue = { hours = 4 }\n'
        '[[step]]\ndo = "cover"\nloosen = true\nwithin = "1 h 30 min"\nsince = "a"\n'
    )
    safe, look, cover, drag, wait, loosen = found.steps
    assert (safe.kind, safe.text, safe.alone, safe.source, safe.id) == (
        "safe",
        "key out",
        True,
        "sheet 1",
        "a",
    )
    assert (look.alone, look.note) == (True, "from below")
    assert (cover.to_stage, cover.place, cover.wrench, cover.adapter) == (2, "left", "W1", "flare-17@90")
    assert (cover.needs, cover.applies) == (("a",), (("engine", ("Q",)),))
    assert drag.band is not None
    assert (drag.band.low, drag.band.unit, drag.drag_of) == (Fraction(3, 2), "N·m", "cover")
    assert wait.due is not None
    assert wait.due.minutes == 240
    assert (loosen.loosen, loosen.within, loosen.since) == (True, Fraction(90), "a")


def test_parts_fluids_tools_rechecks_and_cautions_may_carry_a_source() -> None:
    found = job(
        'parts = [{ name = "gasket", count = 2, one_time = true, source = "sheet 3" }]\n'
        'fluids = [{ name = "oil", amount = "6.2 L", source = "sheet 4" }]\n'
        'tools = [{ name = "mirror", source = "sheet 5" }]\n'
        'cautions = ["hot", { text = "sharp", source = "sheet 6" }]\n'
        '[[step]]\ntext = "look"\n'
        '[[recheck]]\ntext = "level"\ndue = { km = 500, days = 14 }\nband = "-0.3–0.0 L"\nowner = true\n'
        'source = "sheet 7"\n'
    )
    assert (found.parts[0].count, found.parts[0].one_time, found.parts[0].source) == (2, True, "sheet 3")
    assert (found.fluids[0].amount, found.fluids[0].count) == ("6.2 L", 0)
    assert [caution.source for caution in found.cautions] == ["", "sheet 6"]
    (recheck,) = found.rechecks
    assert (recheck.due.minutes, recheck.due.text) == (Fraction(14 * 24 * 60), "14 days or 500 km")
    assert recheck.owner
    assert recheck.source == "sheet 7"


def test_a_fact_with_one_word_is_known_and_with_several_is_asked() -> None:
    found = job('[facts]\nengine = "Q"\ngearbox = ["M", "A"]\n[[step]]\ntext = "look"\n')
    assert found.facts == (("engine", ("Q",)), ("gearbox", ("M", "A")))


def test_a_library_is_no_job_and_a_job_is_no_library() -> None:
    assert is_job({"job": "x"})
    assert is_job({"step": []})
    assert not is_job({"group": []})


@pytest.mark.parametrize(
    ("text", "message", "mend"),
    [
        ("", "the job has no [[step]]", 'Write [[step]] and do = "cylinder-head".'),
        ("step = 5\n", "found the bare number 5, expected tables, each under [[step]]", "[[step]]"),
        ('[[step]]\ndo = ""\n', "do is missing", 'Write do = "what to do".'),
        ('[[step]]\ndo = "a"\nband = "1 mm"\n', 'unknown key "band"', "a step with `check`"),
        ('[[step]]\ncheck = "a"\nto_stage = 1\n', 'unknown key "to_stage"', "a step with `do`"),
        ('[[step]]\ntext = "a"\nneed = ["b"]\n', 'unknown key "need"', 'Did you mean "needs"?'),
        ('[[step]]\nsafe = "a"\nalone = false\n', 'unknown key "alone"', "a step with `text`"),
        ('[facts]\nengine = []\n[[step]]\ntext = "a"\n', 'the fact "engine" has no word', "to be asked"),
        ('[[step]]\ntext = "a"\n[[recheck]]\ndue = { km = 5 }\n', "text is missing", "coolant level"),
    ],
)
def test_a_fault_is_told_once_with_its_mend(text: str, message: str, mend: str) -> None:
    found, problems = read(text)
    assert found is None
    matching = [problem for problem in problems if message in problem.message]
    assert len(matching) == 1, [problem.sentence() for problem in problems]
    assert mend in matching[0].mend
    assert matching[0].file == "small.job.toml"


def test_words_of_a_job_are_shown_without_hidden_characters() -> None:
    found, problems = read('name = "a\\u202eb"\n[[step]]\ntext = "c\\u001b[2J"\n')
    assert found is not None
    assert found.name == "a<U+202E>b"
    assert found.steps[0].text == "c<U+001B>[2J"
    assert [(problem.key, problem.severity) for problem in problems] == [
        ("name", "warning"), ("step[1].text", "warning"),
    ]  # fmt: skip
