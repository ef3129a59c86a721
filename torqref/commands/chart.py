"""`torqref convert --chart`: a page of conversions for the wrench at hand."""

from __future__ import annotations

from argparse import Namespace
from fractions import Fraction

from torqref.commands.console import Console
from torqref.document.refusal import Refusal

WORDS = ("UNIT", "OTHER", "LOW", "HIGH")


def run_chart(options: Namespace, console: Console) -> int:
    """Say the chart, or write it as a page; 1 where there is none, with the reason."""
    from torqref.sheets.chart import chart_page, chart_text, make_chart

    read = _read(options.chart)
    if isinstance(read, Refusal):
        return console.refuse(read)
    chart = make_chart(*read)
    if isinstance(chart, str):
        return console.refuse(Refusal(text=" ".join(options.chart), message=chart))
    if options.html is not None:
        from torqref.commands.paper import write_paper

        return write_paper(options.html, chart_page(chart), console)
    if console.as_json:
        console.answer({"unit": chart.unit, "other": chart.other, "rows": [list(row) for row in chart.rows]})
        return 0
    for line in chart_text(chart):
        console.say(line)
    return 0


def _read(words: list[str]) -> tuple[str, str, Fraction, Fraction] | Refusal:
    from torqref.quantity.reading import read_torque, read_unit

    first, second = read_unit(words[0]), read_unit(words[1])
    if isinstance(first, Refusal):
        return first
    if isinstance(second, Refusal):
        return second
    ends = []
    for word in words[2:]:
        # A bare number is in the first unit; zero is no torque, and may begin a scale.
        found = Fraction(0) if word == "0" else read_torque(f"{word} {first}")
        if isinstance(found, Refusal):
            return found
        ends.append(found if isinstance(found, Fraction) else found.aim)
    return first, second, ends[0], ends[1]
