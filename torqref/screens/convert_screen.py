"""Units: what was typed, as it was read, and what that is in every unit a wrench may have."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from torqref.document.refusal import Refusal
from torqref.library.doubt import verdict_of
from torqref.library.quick import Typed, read_typed
from torqref.pattern.cells import cells
from torqref.quantity.term import Stage
from torqref.screens.band import Band, draws_unit, figure_lines
from torqref.screens.field import Field
from torqref.screens.fields_screen import FieldsScreen
from torqref.screens.head import head
from torqref.screens.line import Line, Piece, block, fitted, shown

# Lines of label and figures that are tried, largest first, and those that stand beside them.
_FIGURES, _BESIDE = (8, 6, 4), 5
UNITS = ("N·m", "ft-lb", "in-lb", "kgf·m", "kgf·cm")
HELP = (
    "Type the value as the page prints it: 22–26 N·m, 57 ± 6 in-lb, max 12 N·m, 30 N·m + 90°.",
    "Pounds, kilograms and ounces are forces here. A limit is never rounded outward.",
    "With a thread and a class beside it, such as M6 8.8 96 ft-lb, the value is judged for that bolt.",
    "The printed value is the one that counts; everything else is worked out from it once.",
)


class ConvertScreen(FieldsScreen):
    """One field; the answers move while it is typed."""

    name_shown = "convert"
    main_help = "empty the line for the next value; from an empty line back"

    def __init__(self, *, text: str = "") -> None:
        """The field.

        Args:
            text: a value that was typed elsewhere already.
        """
        super().__init__((Field(name="value", label="value", hint="22-26 Nm", text=text),))
        self.found = read_typed(text)

    def changed(self) -> None:
        """Read it again."""
        self.found = read_typed(self.text("value"))

    def help_lines(self) -> Sequence[str]:
        """What the help says about converting."""
        return HELP

    def main(self) -> None:
        """Empty the field for the next value; from the empty one go back."""
        if not self.text("value"):
            self.leave()
        else:
            self.special("ctrl+u")

    def picture(self, width: int, height: int) -> Sequence[Line]:
        """The field and what became of it."""
        main = "next value" if self.text("value") else "back"
        return (
            fitted(
                head("convert", "the printed value counts", width, ascii_only=self.look.ascii_only), width
            ),
            fitted(self.field_lines(width)[0], width),
            *block(self._answer(width, height - 3), width, height - 3),
            *block((self.key_line(width, main),), width, 1),
        )

    def _answer(self, width: int, height: int) -> Iterator[Line]:
        if not self.text("value").strip():
            yield from self.say("A value with its unit, as the page prints it.", width)
            return
        if isinstance(self.found, Refusal):
            yield from self.say(f"{self.found.message}.", width)
            for reading in self.found.readings:
                yield from self.say(f"write: {reading}", width, "strong")
            return
        yield from self._read(self.found, width, height)

    def _read(self, found: Typed, width: int, height: int) -> Iterator[Line]:
        from torqref.quantity.showing import describe

        verdict = verdict_of(found)
        if verdict is not None and verdict.at_vehicle:
            yield from self.say(verdict.sentence, width, "warn")
        rows = [line for stage in found.term.stages for line in self._stage(stage, found, width)]
        figures = self._figures(found, width, height - len(rows) - _BESIDE)
        yield from figures
        height -= len(figures)
        if height >= len(rows) + 5:
            yield ()
        yield from rows
        if height >= len(rows) + 5:
            yield ()
        for note in found.term.notes:
            yield from self.say(note, width)
        if verdict is not None and not verdict.at_vehicle:
            yield from self.say(verdict.sentence, width)
        yield from self.say(describe(found.term), width, "quiet")

    def _figures(self, found: Typed, width: int, height: int) -> tuple[Line, ...]:
        """A single value as printed and in the second unit of the trade, to be read from afar."""
        from torqref.quantity.showing import converted, second_unit, show_torque

        first = found.term.stages[0]
        if len(found.term.stages) > 1 or first.kind != "torque":
            return ()
        second = converted(first, second_unit(first.unit, first.aim)).shown
        bands = (self._band("PRINTED", show_torque(first)), self._band("IS", second))
        for lines in _FIGURES:
            drawn = [figure_lines(band, width, lines) for band in bands]
            fits = sum(map(len, drawn)) + 1 <= height
            if fits and all(draws_unit(band, width, lines) for band in bands):
                return ((), *drawn[0], *drawn[1])
        return ()

    def _band(self, verb: str, text: str) -> Band:
        number, _, unit = text.rpartition(" ")
        return Band(verb=verb, number=number.replace("–", "-"), unit=unit, ascii_only=self.look.ascii_only)

    def _stage(self, stage: Stage, found: Typed, width: int) -> Iterator[Line]:
        """One stage: as printed, and under it each other unit."""
        from torqref.quantity.showing import converted, show_angle, show_torque
        from torqref.walk.heading import parts_of_a_turn

        if stage.kind == "torque":
            yield self._row("", show_torque(stage), "set")
            others = [unit for unit in UNITS if unit != stage.unit]
            shown_in = [converted(stage, unit).shown for unit in others]
            for text in shown_in[: 2 if len(found.term.stages) > 1 else len(shown_in)]:
                yield self._row("=", text, "strong")
        elif stage.kind == "angle":
            yield self._row("", show_angle(stage), "set")
            words = parts_of_a_turn(stage.aim) if stage.degrees is not None else ""
            if words:
                yield from self.say(f"= {words}", width)
        else:
            yield self._row("", stage.text, "set")

    def _row(self, sign: str, text: str, tone: str) -> Line:
        """A value with its number at the right of a column, so that units stand under each other."""
        safe = shown(text, ascii_only=self.look.ascii_only)
        number, _, unit = safe.rpartition(" ")
        if not number:
            return (Piece(f" {sign:<2}"), Piece(safe, tone))
        gap = " " * max(0, 16 - cells(number))
        return (Piece(f" {sign:<2}"), Piece(f"{gap}{number} {unit}", tone))
