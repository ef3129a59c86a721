"""Text that wants to hang or break the program: answered at once, every time."""

from __future__ import annotations

import time
from collections.abc import Callable

import pytest

from torqref.document.refusal import Refusal
from torqref.quantity.conversion import factor
from torqref.quantity.length import read_length
from torqref.quantity.measure import read_duration, read_measure
from torqref.quantity.reading import read_angle, read_term, read_torque, read_unit

HOSTILE = (
    "9**9**9 N·m", "9^" * 100, "9**" * 60, "1e400 N·m", "1e999999999", "9" * 200, "9" * 200_000,
    "(" * 200, "[(" * 100, "(" * 5000, ")" * 200, "[", "[/]", "[/b", "a" * 200_000, "x" * 200, "N" * 200,
    "nm" * 100, "ft-" * 66, "in " * 66, "kg " * 66, "#" * 200, "'" * 200, '"' * 200, "°" * 200, "." * 200,
    "-" * 200, "--->" * 50, "+/-" * 66, "+ / " * 50, "± " * 100, "1/" * 100, "1/2 " * 50, "15/16 " * 33,
    "½" * 200, "1," * 100, "1." * 100, "1,200 " * 33, "1,200-" * 28, "1 " * 100, "1\u2009000" * 40,
    "Stage 1: " * 22, "then " * 40, "max " * 50, "half " * 40, "one hundred and " * 12, "point one " * 20,
    "2 x " * 50, "20 + " * 40, "30 + 90 " * 25, "40/90/" * 30, "12 Nm (" * 28, "12 Nm (9 ft-lb) " * 12,
    "12 Nm, " * 28, "25 Nm + 9 + " * 15, "25 Nm then 90 then " * 10, "12 " + "q" * 190, "12 q " * 50,
    "\ufdfa" * 200, "\ud800" * 50, "\udcff24 N·m", "a\u202eb", "1\u200b2 N·m", "\x00", "\x1b[2J24 N·m", "\ufeff24 N·m",
    "２" * 200, "①" * 200, "𝟚𝟜 N·m", "²" * 200, "10²", "nan" * 60, "inf", "-inf", "N·m" * 60, "\u0301" * 200,
    "__import__('os')", "${jndi:ldap://x}", "%s%n" * 40, "' OR 1=1 --", "{}" * 100, "\\" * 200, "🔧" * 200,
)  # fmt: skip
READERS: tuple[Callable[[str], object], ...] = (
    read_term, read_torque, read_angle, read_unit, read_length, read_measure, read_duration,
)  # fmt: skip


@pytest.fixture(scope="module", autouse=True)
def _warm() -> None:
    """The first conversion imports pint; that is paid once and is no part of an answer."""
    factor("N·m", "ft-lb")
    read_unit("foot punds")


@pytest.mark.parametrize("text", HOSTILE, ids=lambda text: repr(text[:20]))
def test_hostile_text_is_answered_within_fifty_milliseconds(text: str) -> None:
    for read in READERS:
        # The best of three: another program may run at the same time.
        assert min(_seconds(read, text) for _ in range(3)) < 0.05, read


def _seconds(read: Callable[[str], object], text: str) -> float:
    start = time.perf_counter()
    read(text)
    return time.perf_counter() - start


@pytest.mark.parametrize(
    "text", [text for text in HOSTILE if not text.startswith("𝟚")], ids=lambda text: repr(text[:20])
)
def test_hostile_text_is_refused_in_one_clean_sentence(text: str) -> None:
    refusal = read_term(text)
    assert isinstance(refusal, Refusal)
    assert refusal.message.isprintable()
    assert len(refusal.message) < 300


def test_digits_of_every_script_are_digits_and_nothing_else_is() -> None:
    bold = read_torque("𝟚𝟜 N·m")
    assert not isinstance(bold, Refusal)
    assert bold.target == 24
    for text in ("①2 N·m", "1² N·m", "⒈5 N·m", "Ⅻ N·m", "㊿ N·m", "三 N·m"):
        assert isinstance(read_torque(text), Refusal), text
