"""What is spoken of a moment: short, in words, the bolt first and then the number."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from datetime import datetime

from torqref.quantity.showing import in_words
from torqref.quantity.words import whole_in_words
from torqref.walk.moment import Moment, goal
from torqref.walk.progress import Progress
from torqref.walk.span import when_text
from torqref.walk.speech import in_speech
from torqref.walk.view import View


def spoken(progress: Progress, moment: Moment, shown: View, now: datetime) -> str:
    """The sentence for the ear, such as "bolt five; ninety-six inch-pounds"; empty where there is none.

    Args:
        progress: the state of the walk.
        moment: what is asked for.
        shown: what the eye is shown.
        now: the present time.
    """
    return in_speech(_said(progress, moment, shown, now))


def one_sentence(*parts: str) -> str:
    """What is said in one breath; empty parts are left out."""
    return "; ".join(part for part in parts if part)


def said_options(options: Iterable[tuple[int, str]]) -> Iterator[str]:
    """Each answer of a question with its digit: whoever only listens must know what to press."""
    return (f"{digit} = {text}" for digit, text in options)


def _said(progress: Progress, moment: Moment, shown: View, now: datetime) -> str:
    if shown.kind == "bolt":
        return one_sentence(_bolts(shown.bolt), _setting(progress, moment))
    if shown.kind == "stop":
        first = shown.lines[:1] if not shown.number else ()
        was = f"was {shown.was}" if shown.was else ""
        return one_sentence("stop", _setting(progress, moment), was, *first)
    if shown.kind == "wait" and progress.due:
        # What is left of the time would make another sentence of it every minute.
        return one_sentence(shown.headline, f"due {when_text(progress.due, now)}")
    return one_sentence(shown.headline, *shown.lines[:1], *said_options(shown.options))


def _bolts(bolt: str) -> str:
    numbers = [whole_in_words(int(label)) for label in bolt.split("+") if label.isdigit()]
    return f"bolt {' and '.join(numbers)}" if numbers else ""


def _setting(progress: Progress, moment: Moment) -> str:
    """The number to set and its unit in words; a turn in degrees."""
    round_, place = goal(progress, moment)
    if round_ is None or not 0 <= place < len(round_.steps):
        return ""
    step = round_.steps[place]
    dial = progress.dial(step)
    if dial is not None:
        return in_words(dial.value, dial.unit)
    return f"turn {in_words(abs(step.degrees), '°')}" if step.degrees is not None else ""
