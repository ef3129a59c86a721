"""The room as a whole: it loads nothing that it does not need."""

from __future__ import annotations

import subprocess
import sys
from pathlib import Path

ROOT = Path(__file__).parents[2]


def test_a_plain_walk_setting_loads_neither_pint_nor_a_screen() -> None:
    code = (
        "import sys\n"
        "from datetime import date\n"
        "from pathlib import Path\n"
        "from torqref.quantity.reading import read_torque\n"
        "from torqref.wrench.choice import choose\n"
        "from torqref.wrench.fitting import read_pieces\n"
        "from torqref.wrench.rack import read_rack\n"
        "rack, _ = read_rack(Path('demo/wrenches.toml'))\n"
        "parts = read_pieces('flare-17', rack)\n"
        "for text in ('22–26 N·m', '26–30 N·m', '400 N·m'):\n"
        "    assert choose(read_torque(text), rack, parts, today=date(2027, 5, 1))\n"
        "print(sorted({'pint', 'textual', 'rich'} & set(sys.modules)))\n"
    )
    done = subprocess.run(
        [sys.executable, "-c", code], cwd=ROOT, capture_output=True, text=True, encoding="utf-8", check=False
    )
    assert done.stdout.strip() == "[]", done.stdout + done.stderr
