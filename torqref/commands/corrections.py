"""`torqref check --corrections`: what pages say other than the library, to be accepted or declined."""

from __future__ import annotations

from argparse import Namespace
from pathlib import Path

from torqref.commands.console import Console
from torqref.commands.desk import clock, library_folders, missing_records, records_folder
from torqref.document.problem import Problem
from torqref.walk.archive import records
from torqref.walk.audit import Correction, corrections
from torqref.walk.decision import ACCEPTED, DECLINED, Decision, read_decisions, waiting, write_decision


def run_corrections(options: Namespace, console: Console) -> int:
    """List what waits, or decide about one of them; exit code 1 where that cannot be done."""
    folder = records_folder(options)
    read, problems = records(folder)
    missing = missing_records(options)
    if not console.as_json:
        console.problems((*missing, *problems))
    if any(problem.severity == "error" for problem in missing):
        return 1
    found = waiting(corrections(read), read_decisions(folder))
    number = options.accept or options.decline
    if not number:
        return _list(found, console)
    if not 0 < number <= len(found):
        return console.deny(f"no correction {number} waits; `torqref check --corrections` lists them.")
    decided = ACCEPTED if options.accept else DECLINED
    return _decide(found[number - 1], decided, options, console)


def _list(found: tuple[Correction, ...], console: Console) -> int:
    if console.as_json:
        console.answer({"corrections": [_values(number, one) for number, one in enumerate(found, start=1)]})
        return 0
    for number, one in enumerate(found, start=1):
        console.say(f"{number}  {one.sentence()}")
    if found:
        console.tell("Look at the page, then: torqref check --accept N, or --decline N.")
    return 0


def _decide(correction: Correction, decided: str, options: Namespace, console: Console) -> int:
    """Change the library file where the correction is accepted, then write the decision down."""
    if decided == ACCEPTED:
        changed = _amend(correction, options)
        if isinstance(changed, Problem):
            return console.deny(changed.sentence())
        console.say(f"{changed}: {correction.group}, stage {correction.stage} is now {correction.value}.")
        console.tell("A changed value is not verified: torqref check --second FILE.")
    problem = write_decision(
        records_folder(options),
        Decision(
            walk=correction.walk,
            number=correction.number,
            decided=decided,
            by=options.by,
            time=clock().isoformat(timespec="seconds"),
            told=correction.sentence(),
        ),
    )
    if problem is not None:
        return console.deny(problem.sentence())
    if decided == DECLINED:
        console.say(f"declined: {correction.sentence()}")
    return 0


def _amend(correction: Correction, options: Namespace) -> Path | Problem:
    """The file in which the value now stands as the page has it, or why it does not."""
    from torqref.document.toml import parse_document, read_file
    from torqref.document.writer import replace_file
    from torqref.library.amendment import amended_text
    from torqref.library.shelf import find_group

    group, _ = find_group(correction.group, library_folders(options))
    if group is None:
        return Problem(
            message=f'no group "{correction.group}" is in the library any more',
            mend="Decline the correction.",
        )
    path = Path(group.file)
    data = read_file(path)
    document = data if isinstance(data, Problem) else parse_document(data, group.file)
    if isinstance(data, Problem) or isinstance(document, Problem):
        return document if isinstance(document, Problem) else Problem(message="the file is gone", mend="")
    text = amended_text(document, correction.group, correction.stage, correction.value)
    return text if isinstance(text, Problem) else replace_file(path, text, data) or path


def _values(number: int, one: Correction) -> dict[str, object]:
    return {
        "number": number,
        "group": one.group,
        "stage": one.stage,
        "value": one.value,
        "told": one.told,
        "walk": one.walk,
        "by": one.by,
        "time": one.time,
    }
