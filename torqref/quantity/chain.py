"""A chain of stages: what separates them, what is said twice, and where the text makes no sense."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction
from itertools import pairwise

from torqref.document.escape import escape
from torqref.document.nearest import nearest
from torqref.quantity import equivalent
from torqref.quantity.bounds import Bounds
from torqref.quantity.scan import Scan, Unread
from torqref.quantity.showing import plain, show_torque
from torqref.quantity.spelling import symbols
from torqref.quantity.stage import Part, read_part
from torqref.quantity.term import Angle, Term, Torque

_AND = frozenset({"+", "then", ",", ";", "→", "and", "&", "plus", "followed", "by", "/", "=", "or", "."})
_SAME_AGAIN = frozenset({",", "/", ";", "=", "or"})
_OPEN, _CLOSE = frozenset("(["), frozenset(")]")


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


def read_chain(scan: Scan, text: str) -> Term:
    """A whole text as a chain of stages.

    Raises:
        Unread: something is left over, or has no one meaning.
    """
    chain = Chain(scan)
    _add(chain, frozenset())
    while not scan.is_done():
        _brackets(chain)
        if scan.is_done():
            break
        marks = _marks(scan)
        if scan.is_done() and marks <= {".", ",", ";"}:
            break
        _add(chain, marks)
    _check_labels(chain)
    stages = tuple(stage for part in chain.parts for stage in part.stages)
    return Term(text=text, stages=stages, notes=_unique(scan.notes), equivalents=tuple(chain.equivalents))


def _unique(notes: list[str]) -> tuple[str, ...]:
    return tuple(dict.fromkeys(notes))


def _marks(scan: Scan) -> frozenset[str]:
    """The signs and words between two stages; the cursor goes past them."""
    first = scan.at
    scan.skip(_AND)
    return frozenset(token.text for token in scan.found[first : scan.at])


def _add(chain: Chain, marks: frozenset[str]) -> None:
    """Read one stage and put it where it belongs."""
    scan = chain.scan
    at = scan.at
    times = _times(scan)
    part = read_part(scan)
    if part is None:
        raise _left_over(chain, at)
    if not chain.parts:
        chain.parts.extend([part] * times)
        return
    if times == 1 and (_merge(chain, part, marks) or _again(chain, part, marks)):
        return
    if not marks:
        raise _glued(chain, part, at)
    _check_plus(chain, part, marks, at)
    chain.parts.extend([part] * times)


def _times(scan: Scan) -> int:
    """`2 x 90°`: the same stage so many times."""
    count = scan.token
    if count.kind == "number" and count.text in ("2", "3", "4") and scan.ahead().text in ("x", "×", "*"):
        scan.at += 2
        return int(count.text)
    return 1


def _merge(chain: Chain, part: Part, marks: frozenset[str]) -> bool:
    """`min 8 N·m, max 12 N·m` and `24 N·m, max 26 N·m` are one stage."""
    old, new = chain.last.bounds, part.bounds
    one, two = chain.last.stages[-1], part.stages[0]
    if old is None or new is None or not isinstance(one, Torque) or not isinstance(two, Torque):
        return False
    if one.unit != two.unit or new.side is None or not marks <= {",", "/", ";", "and"}:
        return False
    if getattr(one, new.side) is not None:
        return False
    joined = _joined(one, old, two)
    start = chain.scan.found[old.first].start
    end = chain.scan.found[chain.scan.at - 1].end
    low, target, high = joined.low, joined.target, joined.high
    values = [value for value in (low, target, high) if value is not None]
    if values != sorted(values) or len(set(values)) != len(values):
        raise Unread("the limits do not hold the value before them", at=new.numbers[0].start)
    text = chain.scan.folded.written(start, end).rstrip(". ")
    numbers = (*old.numbers, *new.numbers) if old.side != "high" else (*new.numbers, *old.numbers)
    bounds = replace(old, low=low, target=target, high=high, numbers=numbers)
    chain.parts[-1] = replace(chain.last, stages=(replace(joined, text=text),), bounds=bounds)
    return True


def _joined(one: Torque, old: Bounds, two: Torque) -> Torque:
    low = two.low if one.low is None else one.low
    high = two.high if one.high is None else one.high
    target = one.target
    if target is None and low is not None and high is not None:
        target = (low + high) / 2
    decimals = max(one.decimals, two.decimals)
    is_nominal = one.is_nominal or old.is_printed
    return replace(one, low=low, target=target, high=high, decimals=decimals, is_nominal=is_nominal)


def _again(chain: Chain, part: Part, marks: frozenset[str]) -> bool:
    """`22 N·m, 16 ft-lb`: the same torque in another unit."""
    one, two = chain.last.stages[-1], part.stages[0]
    if not isinstance(one, Torque) or not isinstance(two, Torque):
        return False
    if one.unit == two.unit or not marks or not marks <= _SAME_AGAIN or part.label:
        return False
    _equivalent(chain, part)
    return True


def _equivalent(chain: Chain, part: Part) -> None:
    """Check an equivalent against the value printed first and keep it.

    Raises:
        Unread: the two contradict each other.
    """
    spec, other = chain.last.stages[-1], part.stages[0]
    assert isinstance(spec, Torque)
    assert isinstance(other, Torque)
    assert chain.last.bounds is not None
    assert part.bounds is not None
    share = equivalent.apart(spec, chain.last.bounds, other, part.bounds)
    if not equivalent.is_told(share):
        raise _contradiction(chain, spec, other, part, share)
    if share:
        chain.scan.notes.append(equivalent.note(spec, other, share))
    chain.equivalents.append(other)


def _contradiction(chain: Chain, spec: Torque, other: Torque, part: Part, share: Fraction) -> Unread:
    assert chain.last.bounds is not None
    assert part.bounds is not None
    one, two = show_torque(spec), show_torque(other)
    likely = equivalent.likely_unit(spec, chain.last.bounds, other, part.bounds)
    fit = show_torque(replace(other, unit=likely)) if likely else ""
    slip = f"; {fit} would fit, so the unit of the second looks wrong" if likely else ""
    message = (
        f"{one} and {two} contradict each other: {one} is {show_torque(spec, other.unit)}, "
        f"{plain(Fraction(round(share * 100)))} % apart{slip}"
    )
    options = (one, two, *((f"{one} ({fit})",) if likely else ()))
    start = chain.scan.found[chain.last.bounds.first].start
    end = chain.scan.found[chain.scan.at - 1].end + (1 if chain.scan.token.text in _CLOSE else 0)
    return Unread(message, at=part.bounds.numbers[0].start, options=options, span=(start, end))


def _brackets(chain: Chain) -> None:
    """Equivalents in brackets behind a stage."""
    scan = chain.scan
    while scan.accept(*_OPEN):
        while True:
            at = scan.at
            part = read_part(scan)
            if part is None or not chain.parts:
                raise _left_over(chain, at)
            _inside(chain, part, at)
            scan.accept(",", ";", "/", "or", "=")
            if scan.accept(*_CLOSE):
                break


def _inside(chain: Chain, part: Part, at: int) -> None:
    one, two = chain.last.stages[-1], part.stages[0]
    if isinstance(one, Torque) and isinstance(two, Torque):
        if one.unit != two.unit:
            _equivalent(chain, part)
            return
        if _merge(chain, part, frozenset()):
            return
    if isinstance(one, Angle) and isinstance(two, Angle) and one.aim == two.aim:
        return
    raise Unread("the brackets hold something else than the value before them", at=chain.scan.found[at].start)


def _check_plus(chain: Chain, part: Part, marks: frozenset[str], at: int) -> None:
    """`57 N·m + 6 N·m` may be a lost ±; a higher torque after a plus is the next stage, not an addition."""
    one, two = chain.last.stages[-1], part.stages[0]
    if "+" not in marks or not isinstance(one, Torque) or not isinstance(two, Torque):
        return
    if one.unit == two.unit and two.aim > one.aim:
        chain.scan.notes.append(
            f"Each torque is a full value: {show_torque(two)} is not added to the one before."
        )
        return
    start = chain.scan.found[chain.last.bounds.first].start if chain.last.bounds else None
    end = chain.scan.found[chain.scan.at - 1].end
    first, second = show_torque(one), show_torque(two)
    options = (f"{plain(one.aim)} ± {plain(two.aim)} {one.unit}",) if one.unit == two.unit else ()
    options = (*options, f"{first} then {second}")
    span = None if start is None else (start, end)
    raise Unread(
        "a lower torque after a plus: a ± may be lost",
        at=chain.scan.found[at].start,
        options=options,
        span=span,
    )


def _check_labels(chain: Chain) -> None:
    labels = [part.label for part in chain.parts if part.label is not None]
    if any(after != before + 1 for before, after in pairwise(labels)):
        raise Unread("the stages are not counted one after the other", at=0)


def _glued(chain: Chain, part: Part, at: int) -> Unread:
    """Two values with nothing between them."""
    scan = chain.scan
    start, end = scan.found[at].start, scan.found[scan.at - 1].end
    before, this = scan.folded.text[:start].strip(), scan.folded.text[start:end]
    joint = "+" if isinstance(part.stages[0], Angle) else "then"
    options = [f"{before} {joint} {this}"]
    if isinstance(part.stages[0], Torque):
        options.append(f"{before} ({this})")
    message = "two values stand side by side; say whether the second follows or repeats the first"
    return Unread(message, at=start, options=tuple(options), span=(0, end))


def _left_over(chain: Chain, at: int) -> Unread:
    """Something is there that no rule explains."""
    scan = chain.scan
    token = scan.found[at]
    text = scan.folded.text
    if token.kind == "end":
        return Unread("a value is expected here, such as 24 N·m or 90°", at=token.start)
    found = escape(text[token.start : token.end])
    before = text[: token.start].rstrip(" +,;/(=")
    options = (before,) if chain.parts else ()
    near = nearest(token.text, symbols()) if token.kind == "word" and len(token.text) > 2 else None
    hint = f'; did you mean "{symbols()[near]}"' if near else ""
    return Unread(f'"{found}" is not understood here{hint}', at=token.start, options=options)
