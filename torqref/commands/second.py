"""`torqref check --second FILE`: another person types the values of a file without seeing them."""

from __future__ import annotations

from argparse import Namespace
from collections.abc import Iterator
from dataclasses import dataclass
from datetime import date
from pathlib import Path
from typing import TextIO

from torqref.commands.console import Console
from torqref.document.problem import Problem
from torqref.document.toml import Document, parse_document, read_file
from torqref.document.writer import replace_file
from torqref.library.blind import Blank, Sheet, agrees, refusal_of, sheets_of, verified_text

_TRIES = 3


@dataclass(frozen=True, slots=True, kw_only=True)
class Outcome:
    """What became of one group.

    Args:
        sheet: the group.
        differences: what differs, one sentence each.
        left_out: how many values were not typed.
        agreed: how many were typed as they stand.
    """

    sheet: Sheet
    differences: tuple[str, ...] = ()
    left_out: int = 0
    agreed: int = 0

    @property
    def agrees(self) -> bool:
        """Whether every value was typed, and as it stands."""
        return not self.differences and not self.left_out


def run_second(options: Namespace, answers: TextIO, today: date, console: Console) -> int:
    """Ask for every value, tell what differs, and mark in the file what agrees.

    Returns:
        0 where everything that was asked agrees; 1 where something differs or was left out.
    """
    document = _document(options.second)
    if isinstance(document, Problem):
        return console.deny(document.sentence())
    sheets = [sheet for sheet in sheets_of(document) if _is_wanted(sheet, options)]
    if not sheets:
        return _nothing(options, console)
    by = options.by or _answer(answers, console, "your name: ")
    if not by:
        return console.deny("The second entry needs a name: who typed the values is written into the file.")
    outcomes = tuple(_asked(sheets, by, answers, console))
    told = [_write(options.second, outcome, by, today, console) for outcome in outcomes]
    if console.as_json:
        console.answer({"groups": [_values(outcome, by) for outcome in outcomes]})
    return 0 if all(told) and len(outcomes) == len(sheets) else 1


def _document(path: Path) -> Document | Problem:
    from torqref.document.escape import escape

    data = read_file(path)
    return data if isinstance(data, Problem) else parse_document(data, escape(str(path)))


def _is_wanted(sheet: Sheet, options: Namespace) -> bool:
    """The groups that are named, else those that nobody has verified."""
    return sheet.id in options.group if options.group else not sheet.verified_by


def _nothing(options: Namespace, console: Console) -> int:
    if options.group:
        return console.deny(f"no group of this name has values in {options.second}.")
    console.tell("Every group is verified; --group ID asks for one of them again.")
    if console.as_json:
        console.answer({"groups": []})
    return 0


def _asked(sheets: list[Sheet], by: str, answers: TextIO, console: Console) -> Iterator[Outcome]:
    """Group after group until the answers end; a person never verifies what they entered."""
    for sheet in sheets:
        if sheet.entered_by.casefold().strip() == by.casefold().strip():
            said = f"{by} has entered the values of {sheet.id}; another person has to type them again."
            yield Outcome(sheet=sheet, differences=(said,), left_out=len(sheet.blanks))
            continue
        console.tell(f"{sheet.name}  [{sheet.id}]: type what the page says; an empty line leaves it out.")
        typed = []
        for number, blank in enumerate(sheet.blanks, start=1):
            text = _value(blank, f"{number} of {len(sheet.blanks)}: {_asked_for(blank)}: ", answers, console)
            if text is None and not blank.optional:
                return
            typed.append((blank, text or ""))
        yield _compared(sheet, typed)


def _asked_for(blank: Blank) -> str:
    return f"{blank.asked}, if the page prints it" if blank.optional else blank.asked


def _value(blank: Blank, prompt: str, answers: TextIO, console: Console) -> str | None:
    """One value as typed; asked again where it is none, and None when the answers end."""
    text: str | None = ""
    for _ in range(_TRIES):
        text = _answer(answers, console, prompt)
        refusal = refusal_of(blank, text) if text else None
        if refusal is None:
            break
        console.tell(refusal.sentence())
    return text


def _answer(answers: TextIO, console: Console, prompt: str) -> str | None:
    # On a terminal the key that ends the answer ends the line.
    console.err.write(prompt if answers.isatty() else f"{prompt}\n")
    console.err.flush()
    line = answers.readline()
    return line.strip() if line else None


def _compared(sheet: Sheet, typed: list[tuple[Blank, str]]) -> Outcome:
    differences = tuple(
        f"{sheet.id}, {blank.asked}: first entry {blank.text}, second {text}. Look at the page."
        for blank, text in typed
        if text and not agrees(blank, text)
    )
    left_out = sum(not text and not blank.optional for blank, text in typed)
    agreed = sum(bool(text) for _, text in typed) - len(differences)
    return Outcome(sheet=sheet, differences=differences, left_out=left_out, agreed=agreed)


def _write(path: Path, outcome: Outcome, by: str, today: date, console: Console) -> bool:
    """Tell what became of a group, and mark it in the file where it agrees."""
    sheet = outcome.sheet
    for difference in outcome.differences:
        _say(console, difference)
    if not outcome.agrees:
        values = sum(not blank.optional for blank in sheet.blanks)
        if outcome.left_out and not outcome.differences:
            _say(console, f"{sheet.id}: {outcome.left_out} of {values} values left out.")
        return False
    # Read anew for each group: what was written before is in the file by now.
    data, document = read_file(path), _document(path)
    text = None if isinstance(document, Problem) else verified_text(document, sheet, by, today)
    if text is None or isinstance(data, Problem):
        _say(console, f'{sheet.id}: agrees, but write verified_by = "{by}" into its source by hand.')
        return False
    problem = replace_file(path, text, data)
    _say(console, problem.sentence() if problem else f"{sheet.id}: {outcome.agreed} values agree, verified.")
    return problem is None


def _say(console: Console, text: str) -> None:
    (console.tell if console.as_json else console.say)(text)


def _values(outcome: Outcome, by: str) -> dict[str, object]:
    return {
        "id": outcome.sheet.id,
        "verified_by": by if outcome.agrees else "",
        "differences": list(outcome.differences),
        "left_out": outcome.left_out,
    }
