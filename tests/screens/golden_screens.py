"""Writes the golden texts of walk and job screen anew: `python -m tests.screens.golden_screens`; then look at them."""

from __future__ import annotations

from tests.screens import test_job_panel, test_walk_panel
from tests.screens.stage import SIZES


def main() -> None:
    """Each view at each size, with signs and in ASCII."""
    for screen in (test_walk_panel, test_job_panel):
        for name in screen.LOOKED_AT:
            for size in SIZES:
                for ascii_only in (False, True):
                    path = screen.GOLDEN / screen.golden_name(name, size, ascii_only)
                    path.write_text(screen.looked_at(name, size, ascii_only), encoding="utf-8")


if __name__ == "__main__":
    main()
