"""The command line: finds the command and its module, and hands the arguments over."""

from __future__ import annotations

import sys


def main(arguments: list[str] | None = None) -> int:
    """Run one command; returns the exit code."""
    words = sys.argv[1:] if arguments is None else arguments
    return 2 if words else 0
