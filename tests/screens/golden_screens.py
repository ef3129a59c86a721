"""Writes the golden texts of the walk screen anew: `python -m tests.screens.golden_screens`; then look at them."""

from __future__ import annotations

from tests.screens.stage import SIZES
from tests.screens.test_walk_panel import GOLDEN, LOOKED_AT, golden_name, looked_at


def main() -> None:
    """Each view at each size, with signs and in ASCII."""
    for name in LOOKED_AT:
        for size in SIZES:
            for ascii_only in (False, True):
                path = GOLDEN / golden_name(name, size, ascii_only)
                path.write_text(looked_at(name, size, ascii_only), encoding="utf-8")


if __name__ == "__main__":
    main()
