"""A chain of stages: what separates them, what is said twice, and what is left over."""

from __future__ import annotations

import re
from dataclasses import replace
from itertools import pairwise, takewhile

from torqref.document.escape import escape
from torqref.quantity import doubt
from torqref.quantity.bounds import Bounds, limited
from torqref.quantity.doubt import MARKS, Before
from torqref.quantity.equivalent import Printed, apart, contradiction, is_told, note
from torqref.quantity.misprint import digits_for_letters, lost_nought, unit_first
from torqref.quantity.scan import CLOSE, OPEN, Scan, Unread
from torqref.quantity.showing import show_torque
from torqref.quantity.stage import Part, read_part, rebuilt
from torqref.quantity.term import Angle, Term, Torque
from torqref.quantity.units import BY_SYMBOL
from torqref.quantity.value import AFTER

_SAME_AGAIN = frozenset({",", "/", ";", "=", "or"})
_BETWEEN_LIMITS = frozenset({",", "/", ";", "and", ".", "-"})
_IN_BRACKET = frozenset({"("})
_BEFORE_BRACKET = frozenset({"/", ","})
_LAST = frozenset({".", ",", ";"})
_EITHER = frozenset({"/", "=", "or"})
_MOST_STAGES = 20
_TWO = 2
_TURN = re.compile(r"°|\b(?:deg|turn|flat|point|rev)", re.IGNORECASE)
# Signs that keep two values apart and say nothing about them: rules of a table, arrows of a keyboard.
_RULES = frozenset(("|", "\\", "_", ">", "»", "¦"))
# Quotes, brackets and bullets that a copied value brings along.
_AROUND = " \"'«»()[]<>·*•→#!?-"


class Chain:
    """What has been read of a text so far."""

    def __init__(self, scan: Scan) -> None:
        """Begin with nothing."""
        self.scan = scan
        self.parts: list[Part] = []
        self.equivalents: list[Torque] = []

    @property
    def last(self) -> Part:
        """The stage read last."""
        return self.parts[-1]

    @property
    def torque(self) -> Torque | None:
        """The stage read last, if it is a torque."""
        stage = self.last.stages[-1] if self.parts else None
        return stage if isinstance(stage, Torque) else None

    def before(self, marks: frozenset[str]) -> Before | None:
        """What a refusal may say about the stage before."""
        bounds = self.last.bounds if self.parts else None
        return Before(self.torque, self.scan.found[bounds.first].start, marks) if bounds else None


def read_chain(scan: Scan, text: str) -> Term:
    """A whole text as a chain of stages.

    Raises:
        Unread: something is left over, or has no one meaning.
    """
    chain = Chain(scan)
    _add(chain, frozenset())
    while not scan.is_done():
        if scan.accept(*OPEN):
            _bracket(chain)
            _limit_behind(chain)
            continue
        marks = _between_limits(chain) or _marks(scan)
        if scan.is_done() and marks <= _LAST:
            break
        if marks <= _BEFORE_BRACKET and scan.accept(*OPEN):
            _bracket(chain)
        else:
            _add(chain, marks)
    _check_labels(chain)
    if len(chain.parts) > _MOST_STAGES:
        raise Unread(f"a chain of more than {_MOST_STAGES} stages", at=0)
    stages = tuple(stage for part in chain.parts for stage in part.stages)
    notes = tuple(dict.fromkeys(scan.notes))
    return Term(text=text, stages=stages, notes=notes, equivalents=tuple(chain.equivalents))


def _between_limits(chain: Chain) -> frozenset[str]:
    """`min 20 N·m - max 25 N·m`: a dash behind one limit leads to the other."""
    bounds = chain.last.bounds
    return frozenset("-") if bounds and bounds.side and chain.scan.accept("-") else frozenset()


def _marks(scan: Scan) -> frozenset[str]:
    """The signs and words between two stages; the cursor goes past them."""
    first = scan.at
    while scan.token.text in MARKS and scan.token.text != "(":
        scan.at += 1
    return frozenset(token.text for token in scan.found[first : scan.at])


def _add(chain: Chain, marks: frozenset[str]) -> None:
    """Read one stage and put it where it belongs."""
    scan, at = chain.scan, chain.scan.at
    times = _times(scan)
    part = read_part(scan, chain.before(marks))
    if part is None:
        first = None if chain.parts else unit_first(scan)
        raise doubt.no_number(scan) or lost_nought(scan) or first or _left_over(chain, at)
    times = max(times, _times_behind(scan))
    if chain.parts and times == 1 and (_merged(chain, part, marks) or _repeated(chain, part, marks)):
        return
    if chain.parts:
        _check_joint(chain, part, marks, at)
    chain.parts.extend([part] * times)


def _times(scan: Scan) -> int:
    """`2 x 90°`: the same stage so many times."""
    count = scan.token
    if (
        count.kind == "number"
        and count.text in ("2", "3", "4")
        and scan.ahead().text in ("x", "×", "*", "times")
    ):
        scan.at += 2
        return int(count.text)
    return 1


def _times_behind(scan: Scan) -> int:
    """`90° x 2`, `90° twice`."""
    if scan.accept("twice"):
        return 2
    count = scan.ahead()
    if scan.token.text in ("x", "×") and count.kind == "number" and count.text in ("2", "3", "4"):
        scan.at += 2
        scan.accept("times")
        return int(count.text)
    return 1


def _merged(chain: Chain, part: Part, marks: frozenset[str]) -> bool:
    """`min 8 N·m, max 12 N·m` and `24 N·m, max 26 N·m` are one stage."""
    old, new = chain.last.bounds, part.bounds
    if old is None or new is None or old.unit is None or new.unit is None:
        return False
    if old.unit.symbol != new.unit.symbol or new.side is None or not marks <= _BETWEEN_LIMITS:
        return False
    if getattr(old, new.side) is not None or type(chain.last.stages[-1]) is not type(part.stages[0]):
        return False
    bounds = _joined(old, new)
    if any(below >= above for below, above in pairwise(bounds.values)):
        raise _no_limit(chain.scan, new)
    start, end = chain.scan.found[old.first].start, chain.scan.found[chain.scan.at - 1].end
    text = chain.scan.folded.written(start, end).rstrip(". ")
    *lead, stage = chain.last.stages
    chain.parts[-1] = replace(chain.last, stages=(*lead, rebuilt(stage, bounds, text)), bounds=bounds)
    return True


def _no_limit(scan: Scan, new: Bounds) -> Unread:
    """`30 Nm > 60 Nm`: an arrow between stages, or a limit on the wrong side."""
    start = new.numbers[0].start
    arrow = scan.found[new.first]
    options = (f"{scan.folded.text[: arrow.start].rstrip()} then ",) if arrow.text == ">" else ()
    message = "the limit does not hold the value before it"
    return Unread(message, at=start, options=options, span=(0, start), topic="glued")


def _joined(old: Bounds, new: Bounds) -> Bounds:
    low = new.low if old.low is None else old.low
    high = new.high if old.high is None else old.high
    target = old.target
    if target is None and low is not None and high is not None:
        target = (low + high) / 2
    numbers = (*old.numbers, *new.numbers) if old.side != "high" else (*new.numbers, *old.numbers)
    return replace(old, low=low, target=target, high=high, numbers=numbers)


def _repeated(chain: Chain, part: Part, marks: frozenset[str]) -> bool:
    """`22 N·m, 16 ft-lb` and `90° = 1/4 turn`: the same again in another unit."""
    if not marks or part.label is not None:
        return False
    two = part.stages[0]
    if isinstance(two, Torque) and chain.torque and chain.torque.unit != two.unit and marks <= _SAME_AGAIN:
        _equivalent(chain, chain.torque, two, part, marks)
        return True
    return marks <= _EITHER and _is_same_turn(chain, part)


def _is_same_turn(chain: Chain, part: Part) -> bool:
    one, two, old, new = chain.last.stages[-1], part.stages[0], chain.last.bounds, part.bounds
    if not isinstance(one, Angle) or not isinstance(two, Angle) or old is None or new is None:
        return False
    other_unit = old.unit is not None and new.unit is not None and old.unit.symbol != new.unit.symbol
    return other_unit and one.aim == two.aim


def _equivalent(chain: Chain, spec: Torque, other: Torque, part: Part, marks: frozenset[str]) -> None:
    """Check an equivalent against the value printed first, and keep it.

    Raises:
        Unread: the two contradict each other.
    """
    assert chain.last.bounds is not None
    assert part.bounds is not None
    one, two = Printed(spec, chain.last.bounds), Printed(other, part.bounds)
    share = apart(one, two)
    if not is_told(share):
        raise contradiction(chain.scan, one, two, in_bracket="(" in marks)
    if share:
        chain.scan.notes.append(note(spec, other, share))
    chain.equivalents.append(other)


def _bracket(chain: Chain) -> None:
    """What stands in brackets behind a stage: equivalents, a limit, or the unit once more."""
    scan = chain.scan
    while True:
        at = scan.at
        if not _is_unit_again(chain):
            part = read_part(scan, chain.before(_IN_BRACKET))
            if part is None:
                raise _left_over(chain, at)
            _inside(chain, part, at)
        if scan.accept(*CLOSE):
            return
        if not scan.accept(",", ";", "/", "or", "="):
            raise _open_bracket(chain)


def _limit_behind(chain: Chain) -> None:
    """`15 N·m (11 ft-lb) or less`: the word that makes a limit of it stands behind the brackets."""
    old = chain.last.bounds
    if old is None or old.unit is None or old.low is not None or old.high is not None or not old.is_printed:
        return
    side = chain.scan.phrase(AFTER)
    if side is None:
        return
    bounds = limited(old, side, old.numbers[0].value)
    text = chain.scan.folded.written(*chain.scan.span(old.first)).rstrip(". ")
    *lead, stage = chain.last.stages
    chain.parts[-1] = replace(chain.last, stages=(*lead, rebuilt(stage, bounds, text)), bounds=bounds)


def _open_bracket(chain: Chain) -> Unread:
    scan = chain.scan
    if not scan.is_done():
        return _left_over(chain, scan.at)
    closed = f"{scan.folded.text.rstrip()})"
    return Unread("a bracket is not closed", at=scan.token.start, options=(closed,))


def _inside(chain: Chain, part: Part, at: int) -> None:
    two = part.stages[0]
    if chain.torque and isinstance(two, Torque) and chain.torque.unit != two.unit:
        _equivalent(chain, chain.torque, two, part, _IN_BRACKET)
        return
    one = chain.last.stages[-1]
    if isinstance(one, Angle) and isinstance(two, Angle) and one.aim == two.aim:
        return
    if not _merged(chain, part, frozenset()):
        start = chain.scan.found[at].start
        raise Unread("the brackets hold something else than the value before them", at=start)


def _is_unit_again(chain: Chain) -> bool:
    """`20 inch pounds (note: INCH)`: somebody was afraid of the wrong unit."""
    scan, torque = chain.scan, chain.torque
    here = scan.at
    if scan.accept("note"):
        scan.accept(":")
    words = BY_SYMBOL[torque.unit].definition.split(" * ") if torque else []
    unit = scan.known.get(scan.token.text, "") if scan.token.kind == "word" else ""
    if unit and unit in (*words, torque.unit if torque else "") and scan.ahead().text in CLOSE:
        scan.at += 1
        return True
    scan.at = here
    return False


def _check_joint(chain: Chain, part: Part, marks: frozenset[str], at: int) -> None:
    """Whether what stands between two stages says that the second follows the first."""
    scan, two = chain.scan, part.stages[0]
    if "-" in marks or (not marks and part.label is None):
        raise _glued(chain, part, at)
    if marks & {"or", "="} or ("/" in marks and chain.torque and isinstance(two, Torque)):
        raise _one_or_other(chain, part, at)
    if _is_window_of_last(chain, part):
        raise _glued(chain, part, at)
    if not marks & {"+", "plus"} or chain.torque is None or not isinstance(two, Torque):
        return
    if chain.torque.unit == two.unit and two.aim > chain.torque.aim:
        scan.notes.append(f"{show_torque(two)} is read as a full value and not added to the one before.")
        return
    start = chain.last.bounds.first if chain.last.bounds else 0
    raise doubt.lost_plus_minus(scan, chain.torque, two, scan.found[start].start, at)


def _is_window_of_last(chain: Chain, part: Part) -> bool:
    """`30 N·m, 28–32 N·m`: limits of the value before, or a stage of its own."""
    two = part.stages[0]
    if (
        not isinstance(two, Torque)
        or chain.torque is None
        or chain.torque.has_window
        or part.label is not None
    ):
        return False
    if two.low is None or two.high is None or two.unit != chain.torque.unit:
        return False
    return two.low <= chain.torque.aim <= two.high


def _check_labels(chain: Chain) -> None:
    labels = [part.label for part in chain.parts if part.label is not None]
    if any(after != before + 1 for before, after in pairwise(labels)):
        raise Unread("the stages are not counted one after the other", at=0)


def _glued(chain: Chain, part: Part, at: int) -> Unread:
    """Two values with nothing between them."""
    scan = chain.scan
    start, end = scan.found[at].start, scan.found[scan.at - 1].end
    before, this = scan.folded.text[:start].rstrip(" ,;+"), scan.folded.text[start:end].lstrip(" :>")
    options: tuple[str, ...] = (f"{before} + {this}",)
    if isinstance(part.stages[0], Torque):
        options = (f"{before} ({this})", f"{before} then {this}")
    message = "two values stand side by side; does the second follow or repeat the first"
    return Unread(message, at=start, options=options, span=(0, end), topic="glued")


def _one_or_other(chain: Chain, part: Part, at: int) -> Unread:
    scan = chain.scan
    start, end = scan.found[at].start, scan.found[scan.at - 1].end
    before, this = (
        scan.folded.text[:start].rstrip(" /=").removesuffix("or").rstrip(),
        scan.folded.text[start:end],
    )
    pieces = _between_slashes(scan)
    if len(pieces) > _TWO:
        # A row of values is a row of stages sooner than that many ways to say one.
        torques = pieces[: len(pieces) - _turns_at_end(pieces)]
        ways = (" then ".join((torque, *pieces[len(torques) :])) for torque in torques)
        options = (" then ".join(pieces), *ways)
        return Unread("are these stages, or is one of them meant", at=start, options=options)
    options = (before, this, f"{before} then {this}")
    return Unread("which of the two is meant", at=start, options=options, span=(0, end), topic="either")


def _between_slashes(scan: Scan) -> list[str]:
    """The parts of a text that slashes before numbers keep apart; those of fractions and units do not."""
    cuts = [0]
    for before, slash, after in zip(scan.found, scan.found[1:], scan.found[2:], strict=False):
        if slash.text == "/" and after.kind in ("number", "fraction") and before.kind != "number":
            cuts.append(slash.end)
    text, ends = scan.folded.text, [*(cut - 1 for cut in cuts[1:]), len(scan.folded.text)]
    return [text[start:end].strip() for start, end in zip(cuts, ends, strict=True)]


def _turns_at_end(pieces: list[str]) -> int:
    """How many of the last parts are turns: they belong to every way that the torque may be read."""
    turns = takewhile(lambda piece: _TURN.search(piece), reversed(pieces))
    return sum(1 for _ in turns)


def _is_more_of_unit(scan: Scan, at: int) -> bool:
    """`24 ft-lb-in`: a third half makes a guess of which two were meant."""
    return scan.found[at].text == "-" and scan.found[at + 1].text in scan.known


def _left_over(chain: Chain, at: int) -> Unread:
    """Something is there that no rule explains."""
    token = chain.scan.found[at]
    before = chain.scan.folded.text[: token.start].rstrip(" +,;/(=→").removesuffix(" or")
    if token.kind == "end":
        options = (before,) if chain.parts else ()
        return Unread("a value is expected here, such as 24 N·m or 90°", at=token.start, options=options)
    found = escape(chain.scan.written(token))
    if not chain.parts:
        text = chain.scan.folded.text
        meant = digits_for_letters(text) or text.strip(_AROUND)
        message = f'"{found}" is no value; one such as 24 N·m or 30 N·m + 90° is expected'
        return Unread(message, at=token.start, options=(meant,) if meant != text else ())
    rest = chain.scan.folded.text[token.end :].strip()
    if token.text in _RULES and rest[:1].isdigit():
        message = f'"{found}" does not say how the values belong together'
        lead = before.rstrip("".join(_RULES)).rstrip()
        return Unread(message, at=token.start, options=(f"{lead} ({rest})", f"{lead} then {rest}"))
    if doubt.says_more(chain.scan.folded.text[token.start :]) or _is_more_of_unit(chain.scan, at):
        # Without it the value would be another one: that is no reading of the text.
        return Unread(f'"{found}" is not understood here; write the stages alone', at=token.start)
    message = f'"{found}" is left over; write the value alone'
    return Unread(message, at=token.start, options=(before,))
