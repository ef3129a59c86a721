"""What the fuzz tests count stands at the end of the run, whether or not the output of tests is shown."""

from __future__ import annotations

import pytest

COUNT = "fuzz count"


def pytest_terminal_summary(terminalreporter: pytest.TerminalReporter) -> None:
    """One line a test that counted."""
    told = [
        str(value)
        for outcome in ("passed", "failed")
        for report in terminalreporter.stats.get(outcome, ())
        for name, value in report.user_properties
        if name == COUNT
    ]
    if told:
        terminalreporter.section("fuzz")
    for line in told:
        terminalreporter.write_line(line)
