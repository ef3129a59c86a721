"""`torqref job`: the whole repair, from the first caution to sign-off; its state as JSON."""

from __future__ import annotations

import os
import sys
from argparse import Namespace
from collections.abc import Mapping
from dataclasses import dataclass, replace
from pathlib import Path

from torqref.commands.arguments import Parser, add_shared
from torqref.commands.check import problem_values
from torqref.commands.console import Console
from torqref.commands.desk import bay, clock, library_folders, rack_of, records_folder, request_of
from torqref.commands.terminal import context_of, has_screen
from torqref.document.problem import Problem
from torqref.document.refusal import Refusal
from torqref.library.group import Group
from torqref.library.job import Job
from torqref.library.job_shelf import job_with_groups
from torqref.walk.job_archive import open_job_record
from torqref.walk.job_opening import open_job, strange_facts
from torqref.walk.job_planner import make_job_plan
from torqref.walk.job_progress import begin_job
from torqref.walk.job_session import Bay
from torqref.walk.job_standing import Standing
from torqref.walk.job_view import due_lines, entries


def add(parser: Parser) -> None:
    """The arguments of the command."""
    parser.add_argument("file", metavar="FILE", type=Path, help="a job file")
    parser.add_argument("--by", default="", metavar="NAME", help="who works")
    parser.add_argument("--work-order", default="", metavar="T", help="number of the work order")
    parser.add_argument("--new", action="store_true", help="begin a new job though one is open")
    add_fact(parser)
    add_shared(parser, "specs", "rack", "records", "plain", "words", "speak")


def add_fact(parser: Parser) -> None:
    """The option that names a fact of the vehicle."""
    parser.add_argument(
        "--fact",
        action="append",
        default=[],
        metavar="NAME=WORD",
        help="a fact of the vehicle, such as engine=Q, instead of being asked",
    )


def run(options: Namespace, console: Console) -> int:
    """Work by the job file, in the screens or as lines; with --json say where it stands."""
    order = order_of(options, console)
    if order is None:
        return 1
    if console.as_json:
        console.answer(_values(order, options))
        return 0
    rack = rack_of(options, console)
    if rack is None:
        return 1
    here = Bay(folder=records_folder(options), name=bay(), groups=order.groups, rack=rack)
    opening = open_job(order.job, here, request_of(options), clock, order.facts)
    for note in opening.notes:
        console.tell(note)
    if opening.session is None:
        return console.refuse(opening.refusal) if opening.refusal else 1
    if not (options.plain or options.words) and has_screen(os.environ):
        from torqref.screens.app import run_app

        context = context_of(options, rack, notes=opening.notes)
        return run_app("job", context, session=opening.session, notes=opening.notes)
    from torqref.commands.job_plain import job_plain
    from torqref.commands.voice import voice_of
    from torqref.commands.worded import lines_of

    try:
        return job_plain(opening.session, sys.stdin, lines_of(options, console), voice_of(options))
    finally:
        opening.session.close()


@dataclass(frozen=True, slots=True, kw_only=True)
class Order:
    """A job without faults, the groups it names, and the facts given."""

    job: Job
    groups: Mapping[str, Group]
    facts: Mapping[str, str]


def order_of(options: Namespace, console: Console) -> Order | None:
    """The job of a file; None where a fault keeps it from being worked by, each one told."""
    job, groups, problems = job_with_groups(options.file, library_folders(options))
    faulty = any(problem.severity == "error" for problem in problems)
    if job is None or faulty:
        _refuse(problems, console)
        return None
    console.problems(() if console.as_json else problems)
    facts = facts_of(options, job)
    if isinstance(facts, Refusal):
        console.refuse(facts)
        return None
    return Order(job=job, groups=groups, facts=facts)


def _refuse(problems: tuple[Problem, ...], console: Console) -> None:
    """Every fault with file, line and mend, and that nothing was begun."""
    if console.as_json:
        told = [problem_values(problem) for problem in problems]
        console.answer({"refused": "the job file has faults", "readings": [], "problems": told})
        return
    console.problems(problems)
    errors = sum(problem.severity == "error" for problem in problems)
    console.tell(f"{'1 fault' if errors == 1 else f'{errors} faults'}: nothing was begun.")


def facts_of(options: Namespace, job: Job) -> Mapping[str, str] | Refusal:
    """The facts given as options, or why they do not fit the job."""
    pairs = [text.partition("=") for text in options.fact]
    for name, mark, word in pairs:
        if not (name and mark and word):
            text = f"{name}{mark}{word}"
            return Refusal(text=text, message="a fact is NAME=WORD", readings=("engine=Q",))
    facts = {name.strip(): word.strip() for name, _, word in pairs}
    return strange_facts(job, facts) or facts


def _values(order: Order, options: Namespace) -> dict[str, object]:
    """Where the job stands: the open one, or a new one in which nothing has happened."""
    request, now = request_of(options), clock()
    record = open_job_record(request.folder, order.job.id, request.bay, request.work_order)
    if record is not None and not options.new:
        standing, name, state = record.standing, record.header.id, record.state
    else:
        fresh = begin_job(make_job_plan(order.job, order.groups))
        known = replace(fresh, facts={**fresh.facts, **order.facts})
        standing, name, state = Standing(progress=known, walks={}), None, "new"
    plan = standing.progress.plan
    return {
        "job": plan.job,
        "name": plan.name,
        "id": name,
        "state": state,
        "facts": dict(standing.progress.facts),
        "steps": step_values(standing),
        "due": list(due_lines(standing, now)),
    }


def step_values(standing: Standing) -> list[dict[str, object]]:
    """The steps of a job with their state, for JSON."""
    steps = zip(entries(standing, clock()), standing.progress.plan.steps, strict=True)
    return [
        {
            "number": entry.number,
            "kind": step.kind,
            "text": entry.text,
            "state": entry.state,
            "more": entry.more,
            "group": step.group or None,
            "place": step.place or None,
            "to_stage": step.to_stage or None,
            "walk": standing.progress.walks.get(step.walk) if step.kind == "group" else None,
            "wanted": step.band.text if step.band else None,
            "due": standing.due_at(step) or None,
        }
        for entry, step in steps
    ]
