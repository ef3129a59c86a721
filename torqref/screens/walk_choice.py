"""Choosing by digit on the walk screen: reasons, wrenches, or which bolt of a card is meant."""

from __future__ import annotations

from dataclasses import dataclass, replace

from torqref.pattern.layout import labels_text
from torqref.walk.session import Session
from torqref.walk.view import View

MOST = 9
_OF_A_BOLT = ("skip", "later", "trouble")
_ASKED = {
    "trouble": "Trouble: which?",
    "skip": "Why is it left out?",
    "old": "The parts are not new: what then?",
    "abandon": "End it unfinished: why?",
    "wrench": "Which wrench? w types it, with crowfoot or unit.",
}


@dataclass(frozen=True, slots=True, kw_only=True)
class Choosing:
    """What a digit is waited for.

    Args:
        word: the word of the walk that the digit completes.
        bolt: the bolt it is about, where the word needs one.
        which: whether the digit names the bolt, because a card has several.
    """

    word: str
    bolt: str = ""
    which: bool = False

    @property
    def question(self) -> str:
        """What is asked, for the line at the foot."""
        asked = "Which bolt?" if self.which else _ASKED[self.word]
        return f"{asked} A digit; any other key goes back."


def begin(word: str, shown: View, session: Session) -> Choosing | None:
    """What must be chosen before a word can be said; None where it can be said at once."""
    if shown.kind == "card" and word in _OF_A_BOLT and len(_open_bolts(session)) > 1:
        return Choosing(word=word, which=True)
    chosen = Choosing(word=word, bolt=bolt_of(shown, session) if word == "skip" else "")
    return chosen if offers(chosen, shown, session) else None


def offers(choosing: Choosing, shown: View, session: Session) -> tuple[str, ...]:
    """The texts to choose from, in the order of their digits."""
    if choosing.which:
        return tuple(f"bolt {label}" for label in _open_bolts(session))[:MOST]
    if choosing.word == "wrench":
        return tuple(wrench.called for wrench in session.rack.wrenches)[:MOST]
    return dict(shown.choices).get(choosing.word, ())[:MOST]


def pick(choosing: Choosing, digit: int, shown: View, session: Session) -> Choosing | str | None:
    """What a digit leads to: a further choice, or the rest of the line; None where it names nothing."""
    if not 1 <= digit <= len(offers(choosing, shown, session)):
        return None
    if choosing.which:
        label = _open_bolts(session)[digit - 1]
        further = replace(choosing, bolt=label, which=False)
        return further if offers(further, shown, session) else label.partition("+")[0]
    if choosing.word == "wrench":
        return session.rack.wrenches[digit - 1].id
    bolt = choosing.bolt.partition("+")[0]  # of a pair one is named
    return (f"{digit} {bolt}" if choosing.word == "trouble" else f"{bolt} {digit}").strip()


def _open_bolts(session: Session) -> tuple[str, ...]:
    progress = session.progress
    round_ = progress.current
    places = progress.open_steps if round_ else ()
    return tuple(labels_text(round_.steps[place].labels) for place in places if round_)


def bolt_of(shown: View, session: Session) -> str:
    """The bolt of the moment, or the first one that is open; of a pair one of the two."""
    return (shown.bolt or (_open_bolts(session) or ("",))[0]).partition("+")[0]
