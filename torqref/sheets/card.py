"""The card of a group: everything a technician needs of it on one page of text."""

from __future__ import annotations

from collections.abc import Iterator

from torqref.library.group import Group
from torqref.library.hole import stripping_of
from torqref.library.source import DEFER, PRACTICE
from torqref.library.stage import Stage
from torqref.pattern.drawing import draw
from torqref.pattern.order import GENERIC
from torqref.walk.condition import conditions_of


def card(group: Group, *, width: int = 80) -> str:
    """The card as lines of text, at most this wide where words allow it."""
    return "\n".join(line.rstrip() for line in _lines(group, width)) + "\n"


def _lines(group: Group, width: int) -> Iterator[str]:
    yield f"{group.name}  [{group.id}]"
    yield group.assembly
    if group.source.invented:
        yield PRACTICE
    yield ""
    yield from _picture(group, width)
    yield ""
    yield from _stages(group)
    yield ""
    yield from _facts(group)
    yield ""
    yield f"Source: {group.source.sentence()}"
    if group.source.seen:
        yield f"Seen: {group.source.seen}"
    yield f"Entered by {group.source.entered_by or 'nobody named'}, {_verified(group)}"
    yield DEFER


def _verified(group: Group) -> str:
    if not group.source.verified_by:
        return "not yet verified by a second person"
    return f"verified by {group.source.verified_by} {group.source.verified_on}".rstrip()


def _picture(group: Group, width: int) -> Iterator[str]:
    seen = f", seen from {group.seen_from}" if group.seen_from else ""
    bolts = len(group.layout.positions)
    yield f"{bolts} bolt{'s' if bolts > 1 else ''}{seen}; order: {order_text(group)}"
    if bolts > 1:
        yield from draw(group.layout, {}, width=min(width, 72), height=16).lines


def order_text(group: Group) -> str:
    """The order of visiting with its basis; a made-up one says that it is."""
    visits = group.order.text
    said = group.order.basis if GENERIC in group.order.basis else f"{group.order.basis}; {GENERIC}"
    basis = f" ({said})" if group.order.generic else ""
    return f"{visits}{basis}"


def _stages(group: Group) -> Iterator[str]:
    for stage in group.stages:
        yield f"  {stage.number}  {stage_text(stage)}"
    for fastener in group.fasteners:
        at = " ".join(str(label) for label in fastener.at)
        own = ", ".join(torque.text for torque in fastener.torques)
        parts = (fastener.thread, fastener.length, fastener.socket, own, fastener.note)
        yield f"     at {at}: {', '.join(part for part in parts if part)}"


def stage_text(stage: Stage) -> str:
    """One stage in words, with its value as printed.

    >>> stage_text(Stage(kind="wait", number=4, text="one heat cycle"))
    'wait: one heat cycle'
    """
    said = [f"{_WORDS.get(stage.kind, '')}{stage.text}"]
    said.extend(_window(stage))
    said.extend(
        text
        for text in (
            f"each bolt through {stage.text}" if stage.each_bolt else "",
            "recheck: still or moved, never loosened first" if stage.recheck else "",
            "again and again until nothing moves" if stage.until_still else "",
            f"positions {' '.join(map(str, stage.at))}" if stage.at else "",
            f"wanted {stage.band.text}" if stage.band else "",
            f"not before {stage.due.text}" if stage.due else "",
            f"within {stage.within} min of the start" if stage.within is not None else "",
            stage.state,
            f"hold {stage.hold}" if stage.hold else "",
            f"turn {stage.turn}" if stage.turn else "",
            f"while {stage.meanwhile}" if stage.meanwhile else "",
        )
        if text
    )
    return "; ".join(said)


_WORDS = {
    "hand": "by hand: ",
    "place": "place: ",
    "wait": "wait: ",
    "measure": "measure: ",
    "align": "align: ",
    "back_off": "back off ",
    "angle": "turn ",
}


def _window(stage: Stage) -> Iterator[str]:
    """The limits, where they were given beside the value and not in it."""
    from torqref.quantity.limits import limits_apart, turn_limits_apart

    window = limits_apart(stage.torque) if stage.torque is not None else ""
    if stage.angle is not None:
        window = turn_limits_apart(stage.text, stage.angle.low, stage.angle.high)
    if window:
        yield f"window {window}"


def facts_of(group: Group) -> tuple[tuple[str, str], ...]:
    """Names and values for a card; those without a value are left to the reader of this to leave out."""
    return (
        ("Thread", ", ".join(part for part in (group.thread, group.grade, group.length) if part)),
        ("Socket", group.socket),
        ("Into", ", ".join(part for part in (group.parent.material, group.parent.engagement) if part)),
        ("Places", ", ".join(group.places)),
        ("After trouble", group.after_trouble),
        ("Second check", group.second_check),
        *((f"Applies to {name}", f"{' or '.join(words)} only") for name, words in group.applies),
    )


def minded(group: Group) -> tuple[str, ...]:
    """What must be minded before the first pull: a hole that may strip, then the conditions."""
    stripping = stripping_of(group)
    return (*((stripping,) if stripping else ()), *conditions_of(group))


def _facts(group: Group) -> Iterator[str]:
    yield from (
        f"{name}{'' if name.startswith('Applies') else ':'} {value}"
        for name, value in facts_of(group)
        if value
    )
    yield from (f"- {words}" for words in minded(group))
    yield from (f"CAUTION: {caution.text}" for caution in group.cautions)
    for part in group.parts:
        once = ", used once only" if part.one_time else ""
        yield f"Part: {part.count} x {part.name}{once}"
    yield from (f"After: {text}" for text in group.after)


def also(stage: Stage) -> str:
    """The value of a stage in the second unit of the trade, empty where it has none."""
    from torqref.quantity.showing import second_unit, show_torque

    if stage.torque is None:
        return ""
    return show_torque(stage.torque, second_unit(stage.torque.unit, stage.torque.aim))
