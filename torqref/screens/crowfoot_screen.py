"""The crowfoot: the setting moves while it is typed, and a drawing says from where to where one measures."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, field
from fractions import Fraction

from torqref.document.refusal import Refusal
from torqref.quantity.reading import read_torque
from torqref.quantity.term import Length, Torque
from torqref.screens.band import Band, figure_lines, one_line
from torqref.screens.field import Field
from torqref.screens.fields_screen import HELP_KEY, FieldsScreen
from torqref.screens.head import head
from torqref.screens.key import Key
from torqref.screens.line import Line, block, fitted, shown
from torqref.screens.line import Piece as Run
from torqref.wrench.adapter import Part, Piece
from torqref.wrench.fitting import read_handle, read_pieces
from torqref.wrench.note import CAUTION
from torqref.wrench.rack import Rack, Wrench
from torqref.wrench.setting import Setting, setting_for
from torqref.wrench.sketch import sketch

VALUE, OFFSET, WRENCH = "value", "offset", "wrench"
MORE = Key(letter=">", word="more", meaning="the next page of what there is to say", act="more")
# Lines of the label and figures that are tried, largest first; from so many lines on a blank is spent.
_FIGURES, _ROOM_FOR_BLANKS, _DRAWING = (12, 10, 8, 6), 14, 9
# Lines of label and figures that are never given up for sentences, by the least lines there are.
_KEPT = ((13, 6), (7, 4))
HELP = (
    "Offset E: from the centre of the drive square to the centre of the fastener, 38 mm or 1.5 in.",
    "Its angle after @, from straight out: 0 away from your hand, 90 across the handle, 180 back towards it.",
    "Several pieces in a row are joined by a plus: 6 in + 1.5 in@90. An adapter of the rack goes by its id.",
    "Wrench: its id in the rack, or L, from the centre of the drive square to the mark on the grip.",
    "At 90° no sum is needed: where there is room, turn the crowfoot across the handle.",
)

# What is drawn before anything is typed: a piece straight out, of a length nobody named.
EXAMPLE = (Piece(offset=Length(value=Fraction(38), unit="mm", decimals=0, text="")),)


@dataclass(frozen=True, slots=True, kw_only=True)
class Asked:
    """What was typed, read as far as it goes.

    Args:
        torque, parts, wrench, length: what could be read; None and empty where not.
        refusals: what could not, by the name of its field.
    """

    torque: Torque | None = None
    parts: tuple[Part, ...] = ()
    wrench: Wrench | None = None
    length: Length | None = None
    refusals: dict[str, Refusal] = field(default_factory=dict)


class CrowfootScreen(FieldsScreen):
    """Three fields, the number to set, the drawing and what it costs to be off."""

    main_help = "to the next line; from an empty first line back"
    name_shown = "crowfoot"

    def __init__(self, *, text: str = "") -> None:
        """The fields.

        Args:
            text: a value that was typed elsewhere already.
        """
        super().__init__(
            (
                Field(name=VALUE, label="value", hint="40 Nm", text=text),
                Field(name=OFFSET, label="offset", hint="38 mm, 1.5 in@45, an adapter"),
                Field(name=WRENCH, label="wrench", hint="300 mm, or its id"),
            )
        )
        self.active = 1 if text else 0
        self.page, self.pages = 0, 1

    def help_lines(self) -> Sequence[str]:
        """What the help says about crowfeet."""
        return HELP

    def main(self) -> None:
        """To the next field; from an empty first one go back."""
        if self.active == 0 and not self.text(VALUE).strip():
            self.leave()
        else:
            self.move(1)

    def keys(self) -> Sequence[Key]:
        """Help, and the next page where there is one."""
        return (*((MORE,) if self.pages > 1 else ()), HELP_KEY)

    def do_more(self) -> None:
        """The next page of sentences, and after the last one the first."""
        self.page = (self.page + 1) % max(1, self.pages)

    def changed(self) -> None:
        """Other words: another answer, from its first page."""
        self.page = 0

    # --- what is shown --------------------------------------------------------------------------

    def picture(self, width: int, height: int) -> Sequence[Line]:
        """Fields, answer, drawing, sentences; what does not fit stands on further pages."""
        asked, room = read_all(self.fields, self.torqref.context.rack), height - 5
        answer = self._setting(asked)
        said, drawing = tuple(self._said(answer, asked, width)), self._sketched(asked, width)
        top = self._figures(answer, width, room, sum(map(len, (*said, drawing))))
        again = self._again(answer, width)
        pages = paged(said, drawing, room - len(top), room - len(again))
        self.pages = len(pages)
        self.page = min(self.page, self.pages - 1)
        top = again if self.page else top
        return (
            fitted(head("crowfoot", "an adapter changes the lever", width), width),
            *(fitted(line, width) for line in self.field_lines(width)),
            *block((*top, *pages[self.page]), width, room),
            *block((self.key_line(width, self._main_word()),), width, 1),
        )

    def _main_word(self) -> str:
        return "back" if self.active == 0 and not self.text(VALUE).strip() else "next field"

    def _setting(self, asked: Asked) -> Setting | Refusal | None:
        """The answer, a refusal of the field that is typed on first, or None while something is missing."""
        active = self.fields[self.active].name
        refusal = asked.refusals.get(active) or next(iter(asked.refusals.values()), None)
        if refusal is not None:
            return refusal
        if asked.torque is None or not asked.parts or (asked.wrench is None and asked.length is None):
            return None
        return setting_for(asked.torque, asked.wrench, asked.parts, length=asked.length)

    def _figures(
        self, answer: Setting | Refusal | None, width: int, room: int, wanted: int
    ) -> tuple[Line, ...]:
        """The number to set, in the largest figures that leave room to read all the rest on one page.

        Where that cannot be, further pages hold the rest: the number is read first, and from afar.
        """
        if not isinstance(answer, Setting):
            return ()
        band = Band(number=answer.shown, unit=answer.unit, ascii_only=self.look.ascii_only)
        sizes = (figure_lines(band, width, height) for height in _FIGURES)
        kept = next((lines for least, lines in _KEPT if room >= least), 1)
        small = figure_lines(band, width, kept) if kept > 1 else (one_line(band, width),)
        fitting = (lines for lines in sizes if len(lines) + wanted < room)
        return (*next(fitting, small), *(((),) if room > _ROOM_FOR_BLANKS else ()))

    def _again(self, answer: Setting | Refusal | None, width: int) -> tuple[Line, ...]:
        """On further pages the number stands in one line, so that they hold more."""
        if not isinstance(answer, Setting):
            return ()
        band = Band(number=answer.shown, unit=answer.unit, ascii_only=self.look.ascii_only)
        return (one_line(band, width),)

    def _said(self, answer: Setting | Refusal | None, asked: Asked, width: int) -> Iterator[tuple[Line, ...]]:
        """What there is to say, a sentence each, most useful first."""
        if answer is None:
            yield from self._missing(asked, width)
        elif isinstance(answer, Refusal):
            impossible = not asked.refusals
            yield self.say(f"{answer.message}.", width, "trouble" if impossible else "plain")
            yield from (self.say(f"write: {reading}", width, "strong") for reading in answer.readings[:3])
        else:
            yield from self._sentences(answer, asked, width)

    def _missing(self, asked: Asked, width: int) -> Iterator[tuple[Line, ...]]:
        """What is still to be typed."""
        wants = (
            (asked.torque is None, "the value as the page prints it"),
            (not asked.parts, "E, from the centre of the drive square to the centre of the fastener"),
            (asked.wrench is None and asked.length is None, "the wrench, or L to the mark on its grip"),
        )
        missing = [words for is_missing, words in wants if is_missing]
        yield self.say(f"Still wanted: {'; '.join(missing)}.", width)

    def _sentences(self, setting: Setting, asked: Asked, width: int) -> Iterator[tuple[Line, ...]]:
        """What arrives, and the notes of the core."""
        if asked.wrench is not None:
            yield self.say(asked.wrench.called, width, "strong")
        if setting.at_fastener is not None:
            tone = "trouble" if setting.verdict == "outside" else "plain"
            yield self.say(setting.sentence(), width, tone)
        for note in setting.notes:
            yield self.say(note, width)
        yield self.say(CAUTION, width, "quiet")

    def _sketched(self, asked: Asked, width: int) -> tuple[Line, ...]:
        """The drawing, in the middle."""
        length = asked.length or (asked.wrench.length if asked.wrench else None)
        text = length.text if length is not None else ""
        lines = sketch(asked.parts or EXAMPLE, length=text, width=min(width - 2, 72), height=_DRAWING)
        wide = max((len(line) for line in lines), default=0)
        left = Run(" " * max(1, (min(width, 80) - wide) // 2))
        return tuple((left, Run(shown(line, ascii_only=self.look.ascii_only), "strong")) for line in lines)


def paged(
    said: Sequence[tuple[Line, ...]], drawing: tuple[Line, ...], first: int, further: int
) -> tuple[tuple[Line, ...], ...]:
    """Sentences and drawing on pages of so many lines; no sentence is torn where it fits on a page.

    Where all of it fits on one page the drawing comes first; else the sentences do, and the drawing stands
    on the last page or on one of its own, if it fits there at all.
    """
    first, further = max(1, first), max(1, further)
    if sum(map(len, said)) + len(drawing) <= first:
        return ((*drawing, *(line for sentence in said for line in sentence)),)
    pages: list[tuple[Line, ...]] = [()]
    torn = (lines[at : at + further] for lines in said for at in range(0, len(lines), further))
    for sentence in (*torn, drawing if len(drawing) <= further else ()):
        room = further if len(pages) > 1 else first
        if len(pages[-1]) + len(sentence) > room and (pages[-1] or len(pages) == 1):
            pages.append(())
        pages[-1] += sentence
    return tuple(pages)


def read_all(fields: Sequence[Field], rack: Rack) -> Asked:
    """Every field read; an empty one is neither read nor refused."""
    text = {each.name: each.text.strip() for each in fields}
    refusals: dict[str, Refusal] = {}
    torque = read_torque(text[VALUE]) if text[VALUE] else None
    parts = read_pieces(text[OFFSET], rack) if text[OFFSET] else ()
    wrench = rack.wrench(text[WRENCH]) if text[WRENCH] else None
    length = read_handle(text[WRENCH]) if text[WRENCH] and wrench is None else None
    for name, found in ((VALUE, torque), (OFFSET, parts), (WRENCH, length)):
        if isinstance(found, Refusal):
            refusals[name] = found
    return Asked(
        torque=torque if isinstance(torque, Torque) else None,
        parts=parts if isinstance(parts, tuple) else (),
        wrench=wrench,
        length=length if isinstance(length, Length) else None,
        refusals=refusals,
    )
