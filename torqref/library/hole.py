"""What a group is screwed into, and its values that bring that thread near stripping."""

from __future__ import annotations

from collections.abc import Iterator
from typing import TYPE_CHECKING

from torqref.document.refusal import Refusal
from torqref.library.group import Group

if TYPE_CHECKING:
    from torqref.fastener.parent import Hole


def hole_of(group: Group) -> Hole | None:
    """The hole of a group, None where the page says too little for an estimate."""
    # Few groups say what they are screwed into, and the others do not pay for the tables.
    if not group.parent.material or not group.parent.engagement:
        return None
    from torqref.fastener.parent import Hole
    from torqref.fastener.stripping import read_material
    from torqref.quantity.conversion import convert
    from torqref.quantity.length import read_length

    material, depth = read_material(group.parent.material), read_length(group.parent.engagement)
    if isinstance(material, Refusal) or isinstance(depth, Refusal):
        return None
    return Hole(material=material, engagement_mm=float(convert(depth.value, depth.unit, "mm")))


def strippings(group: Group) -> Iterator[tuple[str, str]]:
    """Each last value of a clamp that brings its hole near stripping: where it stands, and a sentence."""
    hole = hole_of(group)
    if hole is None or group.purpose != "clamp" or group.value_is != "at fastener":
        return
    from torqref.fastener.parent import parent_warning
    from torqref.fastener.thread import Thread, read_thread
    from torqref.library.pull import pulls

    for pull in pulls(group):
        thread = read_thread(pull.fastener.thread) if pull.fastener.thread else None
        if pull.last and isinstance(thread, Thread):
            sentence = parent_warning(pull.torque, thread, hole, group.condition)
            if sentence:
                yield pull.key, sentence


def stripping_of(group: Group) -> str:
    """The first of these sentences as the technician has to hear it, an estimate; empty for none."""
    sentence = next((sentence for _, sentence in strippings(group)), "")
    return f"estimate: {sentence.rstrip('.')}" if sentence else ""
