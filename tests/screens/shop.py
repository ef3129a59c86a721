"""A shop with a week of records: finished, open, waiting, damaged, torn, by values corrected since."""

from __future__ import annotations

from dataclasses import dataclass, replace
from pathlib import Path

from tests.screens.bay import Bay
from tests.walk.workshop import TWO_ROUNDS, Walk, group
from torqref.library.file import parse_library
from torqref.library.group import Group

HOSTILE = "Lid [red]not markup[/red] \\u202e <b>x</b>"
_WAIT = """
count = 2
[[group.stage]]
torque = "20 N·m"
[[group.stage]]
wait = "cold again"
due = { hours = 4 }
[[group.stage]]
torque = "20 N·m"
"""
_LIBRARY = f"""
[[group]]
id = "bracket"
name = "Bracket to frame"
count = 3
[[group.stage]]
torque = "24 N·m"

[[group]]
id = "flange"
name = "Flange to pump"
{_WAIT}
"""
_INVENTED = 'format = 1\nassembly = "Bench"\n[source]\nkind = "invented"\ntitle = "practice"\n'


@dataclass(slots=True)
class Shop:
    """A bay whose folder of records is filled walk by walk; each walk begins an hour after the last."""

    bay: Bay

    def __post_init__(self) -> None:
        self.bay.library(_LIBRARY, head=_INVENTED)

    def group(self, identity: str, *, text: str = _LIBRARY) -> Group:
        """A group of the library, or of another edition of it."""
        file = parse_library((_INVENTED + text).encode(), "sheet.toml")
        return next(group for group in file.groups if group.id == identity)

    def walk(
        self, group: Group, *, by: str = "", order: str = "", bay: str = "", presses: int | None = None
    ) -> Path:
        """A walk to its end, or so many presses far; returns its journal."""
        self.bay.clock.go(hours=1)
        walk = Walk(
            group, self.bay.records, self.bay.clock, by=by, work_order=order, bay=bay or self.bay.name
        )
        for _ in range(400 if presses is None else presses):
            if walk.asks in ("finished", "wait"):
                break
            self.bay.clock.go(seconds=2)
            walk.session.do("done")
        if presses is not None:
            walk.session.do("pause")
        walk.session.close()
        return walk.session.journal.path

    def week(self) -> None:
        """One of each kind."""
        bracket, flange = self.group("bracket"), self.group("flange")
        self.walk(bracket, by="Ada", order="17")
        self.walk(flange, by="Bo", order="18")
        older = self.group("bracket", text=_LIBRARY.replace("24 N·m", "22 N·m"))
        self.walk(older, by="Ada", order="19")
        self.walk(group(f'name = "{HOSTILE}"\n{TWO_ROUNDS}', "lid"), by="Åsa 漢字", presses=5)
        damage(self.walk(bracket, by="Cy", order="20"))
        tear(self.walk(bracket, by="Cy", order="A-2026/19 for the blue truck"))
        self.walk(replace(bracket, name="Bracket of the other bay"), by="Dee", bay="bay 2", presses=1)


def damage(path: Path) -> None:
    """One byte of the fourth line is another one."""
    lines = path.read_bytes().split(b"\n")
    lines[3] = lines[3].replace(b"kind", b"kInd")
    path.write_bytes(b"\n".join(lines))


def tear(path: Path) -> None:
    """The last line was cut off in writing."""
    path.write_bytes(path.read_bytes() + b'{"kind":"no')
