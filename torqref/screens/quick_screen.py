"""The quick walk: a value and how the bolts stand, read while they are typed; enter starts the walk."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from textual import events

from torqref.document.refusal import Refusal
from torqref.library.arrangement import Arrangement, read_arrangement
from torqref.library.doubt import verdict_of
from torqref.library.group import Group
from torqref.library.quick import Typed, group_of, read_typed
from torqref.screens.band import Band, figure_lines
from torqref.screens.field import Field
from torqref.screens.fields_screen import FieldsScreen
from torqref.screens.head import head
from torqref.screens.line import Line, Piece, block, fitted
from torqref.walk.archive import Record, Wanted, open_walk
from torqref.walk.opening import Request, open_group
from torqref.walk.planner import TIGHTEN, Bench
from torqref.walk.standing import standing

VALUE, BOLTS = "value", "bolts"
HELP = (
    "Value: what the page says, with its unit; thread, class and condition may stand beside it.",
    "30 N·m + 90° + 90° is a chain: each part is a round of its own over all bolts.",
    "Bolts: 3; 2x5 for two rows of five; 5/4 for uneven rows; circle 8 or c8; nothing is one bolt.",
    "The order is generic and not the manufacturer's: where the page shows one, that one comes first.",
    "At the end of the walk it can be kept as a draft group of your own library.",
)
# Lines of label and figures at most, and those that the picture of the bolts is left.
_FIGURES, _PICTURE = 12, 9


class QuickScreen(FieldsScreen):
    """Two short fields; on the first bolt in ten seconds."""

    name_shown = "quick walk"
    main_help = "to the next line, then start the walk; from an empty line back"

    def __init__(self, *, text: str = "") -> None:
        """The two fields.

        Args:
            text: a value that was typed elsewhere already; then the bolts are asked for at once.
        """
        super().__init__(
            (
                Field(name=VALUE, label="value", hint="M8 10.9 24 Nm", text=text),
                Field(name=BOLTS, label="bolts", hint="3, 2x5, circle 8"),
            )
        )
        self.active = 1 if text else 0
        self.typed_value: Typed | Refusal = read_typed(text)
        self.arranged: Arrangement | Refusal = read_arrangement("")
        self.open_record: Record | None = None

    def changed(self) -> None:
        """Read both fields again."""
        self.typed_value = read_typed(self.text(VALUE))
        self.arranged = read_arrangement(self.text(BOLTS))

    def help_lines(self) -> Sequence[str]:
        """What the help says about a quick walk."""
        return HELP

    # --- what is shown --------------------------------------------------------------------------

    def picture(self, width: int, height: int) -> Sequence[Line]:
        """The fields, and under them what they were read as."""
        top = fitted(head("quick walk", "in no library", width, ascii_only=self.look.ascii_only), width)
        body = [*self._said(width), *self._drawn(width, height)]
        return (
            top,
            *(fitted(field, width) for field in self.field_lines(width)),
            *block(body, width, height - 4),
            *block((self.key_line(width, self._main_word()),), width, 1),
        )

    def _said(self, width: int) -> Iterator[Line]:
        """What was understood, most important first."""
        if self.open_record is not None:
            yield from self._choice(self.open_record, width)
            return
        if self.message:
            yield from self.say(self.message, width, "trouble")
        yield from self._value(width)
        if not self.text(BOLTS).strip() and not isinstance(self.typed_value, Typed):
            return
        if isinstance(self.arranged, Refusal):
            yield from self.say(self.arranged.sentence(), width, self._tone(1))
        else:
            order = self._order()
            yield from self.say(self.arranged.words + (f"; order {order}" if order else ""), width)

    def _value(self, width: int) -> Iterator[Line]:
        found = self.typed_value
        if not self.text(VALUE).strip():
            yield from self.say("The value with its unit; thread and class where they are known.", width)
            return
        if isinstance(found, Refusal):
            yield from self.say(f"{found.message}.", width, self._tone(0))
            for reading in found.readings:
                yield from self.say(f"write: {reading}", width, "strong")
            return
        yield from self._read(found, width)

    def _read(self, found: Typed, width: int) -> Iterator[Line]:
        from torqref.quantity.showing import describe

        verdict = verdict_of(found)
        if verdict is not None and verdict.at_vehicle:
            yield from self.say(verdict.sentence, width, "warn")
        bolt = ", ".join(part for part in (found.bolt, found.condition) if part)
        lead = f"{bolt}: " if bolt else ""
        yield from self.say(f"{lead}{describe(found.term)}", width, "strong")
        second = _in_second_unit(found)
        yield from self.say(f"that is {second}", width) if second else ()
        for note in found.term.notes:
            yield from self.say(note, width)
        if verdict is not None and not verdict.at_vehicle:
            yield from self.say(verdict.sentence, width, "quiet")

    def _tone(self, place: int) -> str:
        """A field that is still being typed is answered quietly; one that was entered is refused."""
        return "trouble" if self.refused and self.active == place else "plain"

    def _order(self) -> str:
        from torqref.pattern.order import generic_order

        if isinstance(self.arranged, Refusal) or len(self.arranged.layout.positions) < 3:
            return ""
        return generic_order(self.arranged.layout).basis

    def _drawn(self, width: int, height: int) -> Iterator[Line]:
        """The number in block figures, and where the bolts are, as far as there is room."""
        if self.open_record is not None or isinstance(self.arranged, Refusal):
            return
        from torqref.pattern.drawing import draw

        left = height - 4 - len(list(self._said(width)))
        if not self.text(VALUE).strip():
            yield from self._told(width, left)
            return
        if isinstance(self.typed_value, Typed) and left >= 8:
            figures = self._figures(width, min(_FIGURES, max(left - _PICTURE, min(7, left - 4))))
            left -= len(figures)
            yield from figures
        if len(self.arranged.layout.positions) > 1 and left >= 3:
            yield ()
            drawing = draw(
                self.arranged.layout,
                {},
                width=width - 4,
                height=min(left - 1, 11),
                ascii_only=self.look.ascii_only,
            )
            yield from ((Piece(f"  {text}", "open"),) for text in drawing.lines)

    def _told(self, width: int, left: int) -> Iterator[Line]:
        """What one would else have to look up, as long as nothing is typed."""
        told: list[Line] = [()]
        for sentence in HELP:
            lines = tuple(self.say(sentence, width, "quiet"))
            if len(told) + len(lines) > left:
                return
            yield from told
            yield from lines
            told, left = [], left - len(told) - len(lines)

    def _figures(self, width: int, height: int) -> tuple[Line, ...]:
        from torqref.quantity.showing import show_number

        if isinstance(self.typed_value, Refusal):
            return ()
        torque = next((stage for stage in self.typed_value.term.stages if stage.kind == "torque"), None)
        if torque is None:
            return ()
        number = show_number(torque.aim, torque.decimals)
        band = Band(number=number, unit=torque.unit, ascii_only=self.look.ascii_only)
        return ((), *figure_lines(band, width, height))

    def _choice(self, record: Record, width: int) -> Iterator[Line]:
        context = self.torqref.context
        stands = standing(record, context.clock(), context.bay)
        yield from self.say("This job is open already:", width, "stop")
        yield from self.say(", ".join((stands.title, *stands.words)), width, "strong")
        for number, words in (("1", "go on with it"), ("2", "begin a new one")):
            yield (Piece(f" {number} ", "key"), Piece(f" {words}"))

    def _main_word(self) -> str:
        if self.open_record is not None:
            return "go on with it"
        if not self.text(VALUE).strip():
            return "back"
        if isinstance(self.typed_value, Refusal) or isinstance(self.arranged, Refusal):
            return "not clear yet"
        if self.active == 0 and not self.text(BOLTS).strip():
            return "how many bolts"
        return f"start: {self.arranged.words}"

    # --- keys -----------------------------------------------------------------------------------

    def take(self, event: events.Key) -> None:
        """While it is asked which walk, a digit answers and anything else takes the question back."""
        self.refused = False
        if self.open_record is None:
            super().take(event)
            return
        self.open_record = None
        if event.character == "1" or event.key == "enter":
            self._start(new=False)
        elif event.character == "2":
            self._start(new=True)

    def main(self) -> None:
        """From the value to the bolts, then to the walk; an empty value goes back."""
        if not self.text(VALUE).strip():
            self.leave()
        elif isinstance(self.typed_value, Refusal):
            self.active, self.refused = 0, True
        elif self.active == 0 and not self.text(BOLTS).strip():
            self.active = 1
        elif isinstance(self.arranged, Refusal):
            self.active, self.refused = 1, True
        else:
            self._start()

    def _group(self) -> Group | Refusal:
        if isinstance(self.typed_value, Refusal):
            return self.typed_value
        if isinstance(self.arranged, Refusal):
            return self.arranged
        return group_of(self.typed_value, self.arranged, self.text(BOLTS), self.torqref.context.by)

    def _start(self, *, new: bool | None = None) -> None:
        """Begin the walk; where the same job is open it is asked which of the two is meant."""
        group, context = self._group(), self.torqref.context
        if isinstance(group, Refusal):
            self.message = group.sentence()
            return
        if new is None:
            wanted = Wanted(
                group=group.id, place="", action=TIGHTEN, work_order=context.work_order, bay=context.bay
            )
            self.open_record, _ = open_walk(context.records, wanted)
            if self.open_record is not None:
                return
        request = Request(
            folder=context.records,
            bay=context.bay,
            work_order=context.work_order,
            by=context.by,
            new=bool(new),
        )
        bench = Bench(today=context.clock().date(), rack=context.rack)
        opening = open_group(group, bench, request, context.clock)
        if opening.session is None:
            self.message = opening.refusal.sentence() if opening.refusal else "It cannot be opened."
            return
        self.torqref.instead("walk", session=opening.session, notes=opening.notes)


def _in_second_unit(found: Typed) -> str:
    """The torques in the unit the trade wants beside the printed one."""
    from torqref.quantity.showing import converted, second_unit

    torques = [stage for stage in found.term.stages if stage.kind == "torque"]
    return ", ".join(converted(stage, second_unit(stage.unit, stage.aim)).shown for stage in torques)
