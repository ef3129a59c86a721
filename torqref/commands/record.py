"""`torqref record`: lists, shows and exports walks and jobs."""

from __future__ import annotations

from argparse import Namespace
from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from datetime import date
from itertools import chain
from pathlib import Path

from torqref.commands.arguments import Parser, add_shared
from torqref.commands.check import problem_values
from torqref.commands.console import Console
from torqref.commands.desk import clock, library_folders, missing_records, records_folder
from torqref.document.escape import escape
from torqref.document.problem import Problem
from torqref.walk.archive import Record, read_record
from torqref.walk.audit import Present, present_of
from torqref.walk.job_archive import JobRecord, read_job_record
from torqref.walk.journal import ENDING
from torqref.walk.summary import Summary

_SHEETS = ("csv", "jsonl", "html", "svg", "slip")


def add(parser: Parser) -> None:
    """The arguments of the command."""
    parser.add_argument(
        "id", metavar="ID", nargs="?", default="", help="a walk or a job; a part of its name will do"
    )
    parser.add_argument("--group", default="", metavar="GROUP", help="only walks of this group")
    parser.add_argument("--by", default="", metavar="NAME", help="only what this person worked on")
    parser.add_argument("--work-order", default="", metavar="T", help="only this work order")
    parser.add_argument("--since", default="", metavar="DATE", help="begun on this day or later: 2027-03-01")
    parser.add_argument("--until", default="", metavar="DATE", help="begun on this day or earlier")
    parser.add_argument("--due", action="store_true", help="only what waits for something")
    parser.add_argument("--csv", action="store_true", help="every event as a row")
    parser.add_argument("--jsonl", action="store_true", help="every event as a JSON object, one a line")
    parser.add_argument("--html", type=Path, metavar="FILE", help="write one page that prints well")
    parser.add_argument("--svg", type=Path, metavar="FILE", help="write the picture of one walk")
    parser.add_argument(
        "--slip", action="store_true", help="the recheck slip for the owner; with --html a page"
    )
    add_shared(parser, "records", "specs")


@dataclass(frozen=True, slots=True, kw_only=True)
class Found:
    """What was asked for, as lines of a list: jobs, walks, and what is wrong with the files or the folder."""

    folder: Path
    jobs: tuple[Summary, ...]
    walks: tuple[Summary, ...]
    problems: tuple[Problem, ...]
    is_missing: bool

    @property
    def damaged(self) -> bool:
        """Whether a file is damaged."""
        return any(problem.severity == "error" for problem in self.problems)

    @property
    def part_of_jobs(self) -> frozenset[str]:
        """The walks of the jobs asked for."""
        return frozenset(name for job in self.jobs for name in job.walks)

    @property
    def alone(self) -> Iterator[Record]:
        """The walks asked for that are no part of the jobs asked for, read whole one after the other."""
        part_of_jobs = self.part_of_jobs
        return read_whole(walk.path for walk in self.walks if walk.id not in part_of_jobs)

    def records(self, *, of_jobs: bool) -> Iterator[Record]:
        """The walks asked for, read whole one after the other.

        Args:
            of_jobs: those of the jobs asked for among them, each walk once, by their names.
        """
        if not of_jobs:
            return read_whole(walk.path for walk in self.walks)
        known = {walk.id: walk.path for walk in self.walks}
        known.update({name: self.folder / f"{name}{ENDING}" for name in self.part_of_jobs})
        return read_whole(known[name] for name in sorted(known))

    def job_records(self) -> Iterator[JobRecord]:
        """The jobs asked for, read whole one after the other."""
        read = (read_job_record(job.path)[0] for job in self.jobs)
        return (record for record in read if record is not None)


def read_whole(paths: Iterable[Path]) -> Iterator[Record]:
    """These walks, one after the other."""
    return (record for record in (read_record(path)[0] for path in paths) if record is not None)


def run(options: Namespace, console: Console) -> int:
    """Show the records; exit code 1 for damage, or where nothing is found."""
    if (wrong := _wrong(options)) is not None:
        return console.misuse(wrong)
    found = _found(options)
    if console.as_json and options.html is None and options.svg is None:
        return _json(found, options, console)
    console.problems(() if console.as_json else found.problems)
    if options.id and not found.jobs and not found.walks:
        return console.deny(f"no walk or job named {escape(options.id)}. `torqref record` lists them.")
    code = _sheet(found, options, console)
    if not found.jobs and not found.walks and not found.damaged and not found.is_missing:
        console.tell("No walks yet." if not _is_narrowed(options) else "No walk fits.")
    return 1 if found.damaged else code


def _wrong(options: Namespace) -> str | None:
    """What is wrong with the options, or None."""
    for name in ("since", "until"):
        text = getattr(options, name)
        try:
            date.fromisoformat(text) if text else None
        except ValueError:
            return f'--{name} "{escape(text)}" is not a date; write it as 2027-03-01.'
    given = [name for name in ("csv", "jsonl", "svg") if getattr(options, name)]
    if len(given) + bool(options.html or options.slip) > 1:
        return "one kind of sheet at a time: --csv, --jsonl, --svg, or --html with or without --slip."
    return None


def _is_narrowed(options: Namespace) -> bool:
    names = ("id", "group", "by", "work_order", "since", "until", "due")
    return any(getattr(options, name) for name in names)


def _found(options: Namespace) -> Found:
    from torqref.sheets.selection import Selection
    from torqref.walk.listing import list_folder

    folder = records_folder(options)
    listed = list_folder(folder, options.id)
    wanted = Selection(
        name=options.id,
        group=options.group,
        by=options.by,
        work_order=options.work_order,
        since=options.since,
        until=options.until,
        due=options.due,
    )
    walks, jobs = wanted.among(listed.walks), wanted.among(listed.jobs)
    missing = missing_records(options)
    problems = tuple(dict.fromkeys((*missing, *listed.problems)))
    return Found(folder=folder, jobs=jobs, walks=walks, problems=problems, is_missing=bool(missing))


def _json(found: Found, options: Namespace, console: Console) -> int:
    from torqref.sheets.job_record import job_values
    from torqref.sheets.record import record_values

    changes, now = _present(found, options).changes, clock()
    console.answer_lists(
        {
            "walks": (
                record_values(record, now, changes(record))
                for record in found.records(of_jobs=bool(options.id))
            ),
            "jobs": (job_values(record) for record in found.job_records()),
            "problems": (problem_values(problem) for problem in found.problems),
        }
    )
    missing = bool(options.id) and not found.walks and not found.jobs
    return 1 if found.damaged or missing else 0


def _present(found: Found, options: Namespace) -> Present:
    """What the library says today; the walks of jobs are shown only where something is named."""
    rows = (*found.walks, *(found.jobs if options.id else ()))
    return present_of(rows, library_folders(options))


def _sheet(found: Found, options: Namespace, console: Console) -> int:
    """One sheet of the kind asked for; without a kind the text of what is named, or the list."""
    kind = next((name for name in _SHEETS if getattr(options, name)), "")
    if kind in ("csv", "jsonl"):
        return _export(found, kind, options, console)
    if options.slip:
        return _slip(found, options, console)
    if kind == "html":
        return _page(found, options, console)
    if kind == "svg":
        return _picture(found, options, console)
    return _text(found, options, console) if options.id else _list(found, options, console)


def _export(found: Found, kind: str, options: Namespace, console: Console) -> int:
    from torqref.sheets.record import csv_parts, json_lines

    walks = found.records(of_jobs=bool(options.id))
    # The parts are escaped for their own kind of file; a terminal is not where they go.
    for part in csv_parts(walks) if kind == "csv" else json_lines(walks):
        console.out.write(part)
    console.out.flush()
    return 0


def _page(found: Found, options: Namespace, console: Console) -> int:
    from torqref.commands.paper import write_paper, write_parts
    from torqref.sheets.job_page import job_page
    from torqref.sheets.record_page import record_page_parts

    present = _present(found, options)
    if len(found.jobs) == 1 and options.id:
        return write_paper(options.html, job_page(next(found.job_records()), present.changes), console)
    if not found.walks:
        return console.deny("no walk fits, so there is no page to write.")
    parts = record_page_parts(found.walks, found.records(of_jobs=False), present)
    return write_parts(options.html, parts, console)


def _picture(found: Found, options: Namespace, console: Console) -> int:
    from torqref.commands.paper import write_paper
    from torqref.sheets.picture import walk_pictures

    if len(found.walks) != 1:
        return console.deny(f"--svg draws one walk; {len(found.walks)} fit. Name one by its id.")
    pictures = walk_pictures(next(found.records(of_jobs=False)))
    if len(pictures) > 1:
        return console.deny(f"this walk has {len(pictures)} places; --html draws them all.")
    return write_paper(options.svg, pictures[0][0], console)


def _slip(found: Found, options: Namespace, console: Console) -> int:
    from torqref.commands.paper import write_paper
    from torqref.sheets.slip import job_slip, slip_page, slip_text, walk_slip

    slips = [*map(job_slip, found.job_records()), *map(walk_slip, found.alone)]
    if not slips:
        return console.deny("no walk or job fits, so there is no slip to write.")
    if options.html is not None:
        return write_paper(options.html, slip_page(slips), console)
    for slip in slips:
        for line in slip_text(slip):
            console.say(line)
    return 0


def _list(found: Found, options: Namespace, console: Console) -> int:
    from torqref.sheets.job_record import job_listing
    from torqref.sheets.record import listing

    for line in chain(job_listing(found.jobs), listing(found.walks, _present(found, options), clock())):
        console.say(line)
    return 0


def _text(found: Found, options: Namespace, console: Console) -> int:
    from torqref.sheets.job_record import job_text
    from torqref.sheets.record import notes_by, record_text

    notes = notes_by(_present(found, options), clock())
    jobs = (job_text(job, notes) for job in found.job_records())
    walks = (record_text(walk, notes(walk)) for walk in found.alone)
    for line in chain.from_iterable(chain(jobs, walks)):
        console.say(line)
    return 0
