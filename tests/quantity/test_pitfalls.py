"""What general unit libraries get wrong with text of this kind, one test for each trap.

The traps were seen in public issue trackers of unit libraries and tried with pint 0.25.3; where the trap
can be shown, the test shows it beside our reading.
"""

from __future__ import annotations

import subprocess
import sys
import threading
import time
from fractions import Fraction
from pathlib import Path
from typing import Any

import pint
import pytest

from torqref.document.refusal import Refusal
from torqref.quantity.conversion import convert, factor
from torqref.quantity.reading import read_term, read_torque
from torqref.quantity.showing import converted, show_torque
from torqref.quantity.term import Torque
from torqref.quantity.units import BY_SYMBOL

PACKAGE = Path(__file__).parents[2] / "torqref"


def torque(text: str) -> Torque:
    """The torque of a text."""
    read = read_torque(text)
    assert isinstance(read, Torque), read
    return read


def newton_metres(text: str) -> float:
    """The target of a text in newton metres."""
    value = converted(torque(text), "N·m").target
    assert value is not None
    return float(value)


@pytest.fixture(scope="module")
def registry() -> pint.UnitRegistry[Any]:
    """What a program would use that gives text to a library."""
    return pint.UnitRegistry(cache_folder=None)


def test_pitfall_01_a_tolerance_is_no_product_and_a_mixed_fraction_no_quotient() -> None:
    assert torque("10 N*m ± 2").low == 8
    assert torque("10 N*m ± 2").high == 12
    assert torque("10±2 N*m").target == 10
    assert torque("10 +/- 2 N*m").high == 12
    assert torque("1 1/2 N*m").target == Fraction(3, 2)
    assert torque("9-12 ft*lbf").low == 9
    assert torque(show_torque(torque("24 N×m"))).target == 24


def test_pitfall_02_nm_is_a_torque_and_no_measure_of_yarn(registry: pint.UnitRegistry[Any]) -> None:
    try:
        meant = registry("25 Nm").check("[force] * [length]")
    except pint.UndefinedUnitError:
        meant = False
    assert not meant, "the trap is gone: pint reads Nm as a torque"
    assert newton_metres("25 Nm") == 25
    assert newton_metres("25 cNm") == 0.25
    assert newton_metres("25 daNm") == 250


def test_pitfall_03_pounds_kilograms_and_ounces_are_forces(registry: pint.UnitRegistry[Any]) -> None:
    assert registry("9 ft * lbs").check("[mass] * [length]"), "the trap: a mass times a length"
    assert newton_metres("9 ft lbs") == pytest.approx(12.2023615, rel=1e-8)
    assert newton_metres("88 in lbs") == pytest.approx(9.9426650, rel=1e-8)
    assert newton_metres("2.5 kg m") == pytest.approx(24.516625, rel=1e-12)
    assert newton_metres("500 oz in") == pytest.approx(3.5307759, rel=1e-7)


def test_pitfall_04_quotes_brackets_and_hyphens_are_read_or_refused_and_never_raise() -> None:
    assert torque('88"-lb').unit == "in-lb"
    assert torque("25 N-m").target == 25
    for text in ("[", "]", "(", '"', "25 N·m [", "(" * 5000, "25 'in'"):
        assert isinstance(read_term(text), Refusal), text


def test_pitfall_05_a_power_tower_and_a_very_long_word_are_answered_at_once() -> None:
    for text in ("9**9**9", "9**9**9 N·m", "(9**9)**9", "q" * 200_000):
        start = time.perf_counter()
        assert isinstance(read_term(text), Refusal)
        assert time.perf_counter() - start < 0.05


def test_pitfall_06_capitals_are_folded_only_where_no_two_units_clash() -> None:
    for text in ("25 nM", "25 nm", "25 NM"):
        term = read_term(text)
        assert not isinstance(term, Refusal)
        assert torque(text).unit == "N·m"
        assert term.notes, text
    refusal = read_term("25 MNm")
    assert isinstance(refusal, Refusal)
    assert torque("25 mNm").unit == "mN·m"


@pytest.mark.parametrize("dot", "·⋅•∙・‧.*×✕")
@pytest.mark.parametrize("dash", "-‐‑‒–—―−﹣－")
def test_pitfall_07_dots_dashes_primes_and_blanks_of_every_block_are_one(dot: str, dash: str) -> None:
    read = torque(f"20{dash}25\u2007N{dot}m")
    assert read.low == 20
    assert read.high == 25
    assert read.unit == "N·m"
    for prime in "′'’ʹ":
        assert torque(f"20 {prime}{dash}lb").unit == "ft-lb"
    assert torque("12½ N·m").target == Fraction(25, 2)
    assert isinstance(read_term("10² N·m"), Refusal)


def test_pitfall_08_reading_a_value_loads_no_unit_library() -> None:
    code = (
        "import sys; from torqref.quantity.reading import read_term; "
        "read_term('22–26 N·m'); read_term('30 N·m + 90° + 90°'); read_term('15 lbs'); "
        "sys.exit('pint' in sys.modules or 'difflib' in sys.modules)"
    )
    assert subprocess.run([sys.executable, "-c", code], cwd=PACKAGE.parent, check=False).returncode == 0


def test_pitfall_09_nothing_is_kept_in_a_cache_on_disk(tmp_path: Path) -> None:
    code = (
        "from torqref.quantity.conversion import factor, _registry; factor('N·m', 'ft-lb'); "
        "assert _registry()._diskcache is None"
    )
    environment = {"HOME": str(tmp_path), "XDG_CACHE_HOME": str(tmp_path), "PYTHONPATH": str(PACKAGE.parent)}
    done = subprocess.run([sys.executable, "-B", "-c", code], env=environment, check=False, cwd=tmp_path)
    assert done.returncode == 0
    assert list(tmp_path.iterdir()) == []


def test_pitfall_10_a_number_is_exact_from_its_first_digit_on() -> None:
    # 0.1 + 0.2 is not 0.3 in floating point; here it is.
    assert torque("0.1 N·m").target == Fraction(1, 10)
    assert torque("0.2 ± 0.1 N·m").high == Fraction(3, 10)
    assert factor("ft-lb", "N·m") == Fraction(3389544870828501, 2500000000000000)
    values = converted(torque("88.0 ± 0.1 in-lb"), "N·m")
    assert all(isinstance(value, Fraction) for value in (values.low, values.target, values.high))


def test_pitfall_11_a_torque_is_no_energy(registry: pint.UnitRegistry[Any]) -> None:
    assert registry("25 N*m") == registry("25 J"), "the trap: both have one dimension"
    assert isinstance(read_term("25 J"), Refusal)
    assert "J" not in BY_SYMBOL
    with pytest.raises(ValueError, match="measures"):
        convert(Fraction(25), "N·m", "°")


def test_pitfall_12_a_shown_torque_has_its_unit_the_right_way_round(registry: pint.UnitRegistry[Any]) -> None:
    assert f"{registry('25 N*m'):~P}".endswith("m·N"), "the trap: it reads like millinewton"
    assert show_torque(torque("25 N*m")) == "25 N·m"


def test_pitfall_13_nothing_but_a_finite_number_above_zero_is_a_torque() -> None:
    for text in ("1e400 N·m", "1e3 N·m", "nan N·m", "inf N·m", "-5 N·m", "0 N·m", "0.0 N·m", "−0 N·m"):
        assert isinstance(read_term(text), Refusal), text


def test_pitfall_14_many_threads_get_the_same_answers() -> None:
    texts = ["22–26 N·m (16–19 ft-lb)", "30 N·m + 90°", "57 ± 6 in-lb", "15 lbs"]
    expected = [read_term(text) for text in texts]
    answers: list[list[object]] = []
    threads = [
        threading.Thread(target=lambda: answers.append([read_term(text) for text in texts])) for _ in range(8)
    ]
    for thread in threads:
        thread.start()
    for thread in threads:
        thread.join()
    assert answers == [expected] * 8
