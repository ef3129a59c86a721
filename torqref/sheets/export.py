"""Sheets of the records that a list shows: a page that prints well, or rows for a spreadsheet, in a file."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from datetime import datetime
from pathlib import Path

from torqref.document.escape import escape
from torqref.document.problem import Problem
from torqref.sheets.job_page import job_page
from torqref.sheets.record import csv_parts
from torqref.sheets.record_page import record_page
from torqref.sheets.sheet_file import write_sheet
from torqref.walk.archive import Record, read_record
from torqref.walk.audit import present_of
from torqref.walk.job_archive import read_job_record
from torqref.walk.summary import Summary, walk_summary

FOLDER, MOST_ON_A_PAGE = "sheets", 200


@dataclass(frozen=True, slots=True, kw_only=True)
class Export:
    """What became of it.

    Args:
        sentence: what happened, for the technician.
        path: the file that was written, or None.
    """

    sentence: str
    path: Path | None = None


def export_page(
    summaries: Sequence[Summary], folder: Path, now: datetime, libraries: Sequence[Path]
) -> Export:
    """Write these records as one HTML page that prints well.

    Args:
        summaries: walks and jobs; a single job gives the page of the job.
        folder: the folder of records; sheets have a folder of their own in it.
        now: the present time, for the name of a page of several.
        libraries: the library folders, for what was corrected since.
    """
    if len(summaries) > MOST_ON_A_PAGE:
        many = f"{len(summaries)} records are listed, a page holds {MOST_ON_A_PAGE}."
        return Export(sentence=f"{many} Type words to narrow them, or write the rows.")
    job = read_job_record(summaries[0].path)[0] if _is_one_job(summaries) else None
    if job is not None:
        changes = present_of(map(walk_summary, job.walks.values()), libraries).changes
        return _written(_path(summaries, folder, now, ".html"), (job_page(job, changes),))
    walks = tuple(_walks(summaries))
    if not walks:
        return Export(sentence="No walk is listed, so there is no page to write.")
    page = record_page(walks, present_of(map(walk_summary, walks), libraries))
    return _written(_path(summaries, folder, now, ".html"), (page,))


def export_rows(summaries: Sequence[Summary], folder: Path, now: datetime) -> Export:
    """Write every event of these records as a row of a CSV file; the walks of a single job with it."""
    if not summaries:
        return Export(sentence="Nothing is listed, so there are no rows to write.")
    walks = _of_one_job(summaries[0]) if _is_one_job(summaries) else _walks(summaries)
    return _written(_path(summaries, folder, now, ".csv"), csv_parts(walks))


def _is_one_job(summaries: Sequence[Summary]) -> bool:
    return len(summaries) == 1 and summaries[0].is_job


def _of_one_job(summary: Summary) -> Iterator[Record]:
    job, _ = read_job_record(summary.path)
    yield from job.walks.values() if job is not None else ()


def _walks(summaries: Sequence[Summary]) -> Iterator[Record]:
    """The walks of a list, oldest first; those of its jobs are listed themselves."""
    for summary in reversed(summaries):
        record = None if summary.is_job else read_record(summary.path)[0]
        if record is not None:
            yield record


def _path(summaries: Sequence[Summary], folder: Path, now: datetime, ending: str) -> Path:
    name = summaries[0].path.stem if len(summaries) == 1 else f"records-{now:%Y%m%d-%H%M%S}"
    return folder / FOLDER / f"{name}{ending}"


def _written(path: Path, parts: Iterator[str] | tuple[str, ...]) -> Export:
    try:
        path.parent.mkdir(parents=True, exist_ok=True)
    except OSError as error:
        problem: Problem | None = Problem(
            file=escape(str(path.parent)),
            message=f"the folder cannot be made ({error.strerror})",
            mend="Look at the folder of records.",
        )
    else:
        problem = write_sheet(path, parts)
    if problem is not None:
        return Export(sentence=f"NOT written: {problem.sentence()}")
    return Export(sentence=f"written: {escape(str(path))}", path=path)
