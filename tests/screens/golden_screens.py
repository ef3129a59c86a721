"""Writes the golden texts of walk and job anew: `python -m tests.screens.golden_screens`; then look at them."""

from __future__ import annotations

from itertools import product

from tests.screens import test_job_panel, test_walk_panel
from tests.screens.stage import SIZES


def main() -> None:
    """Each view at each size, with signs and in ASCII."""
    for panel in (test_walk_panel, test_job_panel):
        for name, size, ascii_only in product(panel.LOOKED_AT, SIZES, (False, True)):
            path = panel.GOLDEN / panel.golden_name(name, size, ascii_only)
            path.write_text(panel.looked_at(name, size, ascii_only), encoding="utf-8")


if __name__ == "__main__":
    main()
