"""Every way of writing a value that pages, posters and people use, and the number that must come out.

The newton metres are worked out by hand from 1 lbf·ft = 1.3558179483 N·m, 1 lbf·in = 0.1129848290 N·m,
1 kgf·m = 9.80665 N·m and 1 ozf·in = 0.0070615518 N·m (1959 yard and pound agreement, 3rd CGPM 1901).
What people write is common practice, no source, unless a line says otherwise.
"""

from __future__ import annotations

from fractions import Fraction

import pytest

from torqref.quantity.reading import read_term, read_torque
from torqref.quantity.showing import converted
from torqref.quantity.term import Angle, Hand, Term, Torque

N = None
# text, low, target, high, unit, newton metres of the target or of the only limit
VALUES: list[tuple[str, float | None, float | None, float | None, str, float]] = [
    ("800-1140 inches/pound", 800, 970, 1140, "in-lb", 109.5952842),
    ("53 inch pounds", N, 53, N, "in-lb", 5.9881959),
    ("7-15 Ft. Lbs", 7, 11, 15, "ft-lb", 14.9139974),
    ("25 lb-ft", N, 25, N, "ft-lb", 33.8954487),
    ("25 ft-lb", N, 25, N, "ft-lb", 33.8954487),
    ("25 lbf.ft", N, 25, N, "ft-lb", 33.8954487),
    ("25 ft-lbs", N, 25, N, "ft-lb", 33.8954487),
    ("25 foot pounds", N, 25, N, "ft-lb", 33.8954487),
    ("25 pound feet", N, 25, N, "ft-lb", 33.8954487),
    ("25 lbs/ft", N, 25, N, "ft-lb", 33.8954487),
    ("50nms", N, 50, N, "N·m", 50),
    ("1 kgf.m", N, 1, N, "kgf·m", 9.80665),
    ("1100 N*m", N, 1100, N, "N·m", 1100),
    ("13825.5 gf.cm", N, 13825.5, N, "gf·cm", 1.3558184),
    ("33,6 ft/lbs (45,3 Nm)", N, 33.6, N, "ft-lb", 45.5554831),
    ("58,3 Nm (43,0 ft/lbs)", N, 58.3, N, "N·m", 58.3),
    ("20 inch pounds (note: INCH)", N, 20, N, "in-lb", 2.2596966),
    ("9-12 ft lbs", 9, 10.5, 12, "ft-lb", 14.2360885),
    ("1.0-1.4 kgf-m", 1, 1.2, 1.4, "kgf·m", 11.76798),
    ("2,5 kgm", N, 2.5, N, "kgf·m", 24.516625),
    ("3.2 mkg", N, 3.2, N, "kgf·m", 31.38128),
    ("120 cNm", N, 120, N, "cN·m", 1.2),
    ("64 ozf-in", N, 64, N, "ozf·in", 0.4519393),
    ("50 kg-cm", N, 50, N, "kgf·cm", 4.903325),
    ("12½ lb ft", N, 12.5, N, "ft-lb", 16.9477244),
    ("1\u202f200 N·m", N, 1200, N, "N·m", 1200),
    ("1\u00a0200 N·m", N, 1200, N, "N·m", 1200),
    ("20–25 Nm", 20, 22.5, 25, "N·m", 22.5),
    ("20—25 Nm", 20, 22.5, 25, "N·m", 22.5),
    ("20−25 Nm", 20, 22.5, 25, "N·m", 22.5),
    ("20‐25 Nm", 20, 22.5, 25, "N·m", 22.5),
    ("20--25 Nm", 20, 22.5, 25, "N·m", 22.5),
    ("20 to 25 Nm", 20, 22.5, 25, "N·m", 22.5),
    ("20~25 Nm", 20, 22.5, 25, "N·m", 22.5),
    ("20 ～ 25 Nm", 20, 22.5, 25, "N·m", 22.5),
    ("20..25 Nm", 20, 22.5, 25, "N·m", 22.5),
    ("20…25 Nm", 20, 22.5, 25, "N·m", 22.5),
    ("20 Nm - 25 Nm", 20, 22.5, 25, "N·m", 22.5),
    ("between 20 and 25 Nm", 20, 22.5, 25, "N·m", 22.5),
    ("from 20 to 25 Nm", 20, 22.5, 25, "N·m", 22.5),
    ("57 ± 6 in-lb", 51, 57, 63, "in-lb", 6.4401353),
    ("57 +/- 6 in-lb", 51, 57, 63, "in-lb", 6.4401353),
    ("57+-6 in-lb", 51, 57, 63, "in-lb", 6.4401353),
    ("57 in-lb ± 6 in-lb", 51, 57, 63, "in-lb", 6.4401353),
    ("57 in-lb plus or minus 6", 51, 57, 63, "in-lb", 6.4401353),
    ("80 Nm ±10%", 72, 80, 88, "N·m", 80),
    ("80 Nm (± 10 %)", 72, 80, 88, "N·m", 80),
    ("80 ± 10 percent Nm", 72, 80, 88, "N·m", 80),
    ("24 +2/-1 N·m", 23, 24, 26, "N·m", 24),
    ("24 -1/+2 N·m", 23, 24, 26, "N·m", 24),
    ("24 N·m +2 -1", 23, 24, 26, "N·m", 24),
    ("24 N·m (+2/−1)", 23, 24, 26, "N·m", 24),
    ("24 (+2, -1) N·m", 23, 24, 26, "N·m", 24),
    ("24 N·m +2/0", 24, 24, 26, "N·m", 24),
    ("24 N·m [+2 N·m/-1 N·m]", 23, 24, 26, "N·m", 24),
    ("200 N·m +5/-3 %", 194, 200, 210, "N·m", 200),
    ("30 N·m (28–32)", 28, 30, 32, "N·m", 30),
    ("30 (28–32) N·m", 28, 30, 32, "N·m", 30),
    ("30 N·m (28–32 N·m)", 28, 30, 32, "N·m", 30),
    ("max 12 Nm", N, N, 12, "N·m", 12),
    ("max. 12 Nm", N, N, 12, "N·m", 12),
    ("max.12 Nm", N, N, 12, "N·m", 12),
    ("<12 Nm", N, N, 12, "N·m", 12),
    ("≤ 12 Nm", N, N, 12, "N·m", 12),
    ("<= 12 Nm", N, N, 12, "N·m", 12),
    ("12 Nm max.", N, N, 12, "N·m", 12),
    ("12 Nm (max)", N, N, 12, "N·m", 12),
    ("up to 12 Nm", N, N, 12, "N·m", 12),
    ("not to exceed 40Nm", N, N, 40, "N·m", 40),
    ("should not exceed 40Nm", N, N, 40, "N·m", 40),
    ("no more than 40 Nm", N, N, 40, "N·m", 40),
    ("min 8 Nm", 8, N, N, "N·m", 8),
    ("8 Nm minimum", 8, N, N, "N·m", 8),
    ("at least 8 Nm", 8, N, N, "N·m", 8),
    ("> 8 Nm", 8, N, N, "N·m", 8),
    # the field case of a plural stuck on the unit: 50 is aimed at, and the word that makes a limit of it is kept
    ("over 50nms", 50, N, N, "N·m", 50),
    # quotes around a value are the typist's
    ('"25 Nm"', N, 25, N, "N·m", 25),
    ("'25 Nm'", N, 25, N, "N·m", 25),
    ("“25 Nm”", N, 25, N, "N·m", 25),
    ("max 12 Nm / min 8 Nm", 8, 10, 12, "N·m", 10),
    ("8 N·m min, 12 N·m max", 8, 10, 12, "N·m", 10),
    ("8 N·m min 12 N·m max", 8, 10, 12, "N·m", 10),
    ("min 8 max 12 Nm", 8, 10, 12, "N·m", 10),
    ("8 min 12 max N·m", 8, 10, 12, "N·m", 10),
    ("24 N·m, max 26 N·m", N, 24, 26, "N·m", 24),
    ("24 N·m max 26 N·m", N, 24, 26, "N·m", 24),
    ("24 N·m (min 20 N·m)", 20, 24, N, "N·m", 24),
    ("7 1/2 ft-lb", N, 7.5, N, "ft-lb", 10.1686346),
    ("7-1/2 ft-lb", N, 7.5, N, "ft-lb", 10.1686346),
    ("7 1/2-8 1/2 ft-lb", 7.5, 8, 8.5, "ft-lb", 10.8465436),
    ("7½ ft-lb", N, 7.5, N, "ft-lb", 10.1686346),
    ("½ ft-lb", N, 0.5, N, "ft-lb", 0.677909),
    (".5 ft-lb", N, 0.5, N, "ft-lb", 0.677909),
    ("0,500 N·m", N, 0.5, N, "N·m", 0.5),
    ("1.200,5 N·m", N, 1200.5, N, "N·m", 1200.5),
    ("1,200.5 N·m", N, 1200.5, N, "N·m", 1200.5),
    ("1,200,000 gf·cm", N, 1200000, N, "gf·cm", 117.6798),
    ("１２ N·m", N, 12, N, "N·m", 12),
    ("１２．５ Ｎ・ｍ", N, 12.5, N, "N·m", 12.5),
    ("١٢ N·m", N, 12, N, "N·m", 12),
    ("25 ft#", N, 25, N, "ft-lb", 33.8954487),
    ("25 #-ft", N, 25, N, "ft-lb", 33.8954487),
    ("25'#", N, 25, N, "ft-lb", 33.8954487),
    ("25 ′-lb", N, 25, N, "ft-lb", 33.8954487),
    ('88"-lb', N, 88, N, "in-lb", 9.942665),
    ("88 lb·″", N, 88, N, "in-lb", 9.942665),
    ("5 N/m", N, 5, N, "N·m", 5),
    ("25 pounds per foot", N, 25, N, "ft-lb", 33.8954487),
    ("25 kp·m", N, 25, N, "kgf·m", 245.16625),
    ("25 kpcm", N, 25, N, "kgf·cm", 2.4516625),
    ("25 cmkp", N, 25, N, "kgf·cm", 2.4516625),
    ("500 cm-g", N, 500, N, "gf·cm", 0.04903325),
    ("25 cm·N", N, 25, N, "N·cm", 0.25),
    ("25 m·N", N, 25, N, "N·m", 25),
    ("300 N·mm", N, 300, N, "N·mm", 0.3),
    ("tightening torque = 25 Nm", N, 25, N, "N·m", 25),
    ("25 daNm", N, 25, N, "daN·m", 250),
    ("2.5 m.daN", N, 2.5, N, "daN·m", 25),
    ("25 kNm", N, 25, N, "kN·m", 25000),
    ("25 nm", N, 25, N, "N·m", 25),
    ("25 NM", N, 25, N, "N·m", 25),
    ("25 FT-LBS", N, 25, N, "ft-lb", 33.8954487),
    ("25 newton-metres", N, 25, N, "N·m", 25),
    ("25 Newton Meters", N, 25, N, "N·m", 25),
    ("25 pound-force feet", N, 25, N, "ft-lb", 33.8954487),
    ("10 kilogram-force metres", N, 10, N, "kgf·m", 98.0665),
    ("25 ft lbs of torque", N, 25, N, "ft-lb", 33.8954487),
    ("torque to 25 Nm", N, 25, N, "N·m", 25),
    ("Tighten: 25 Nm.", N, 25, N, "N·m", 25),
    ("~25 Nm", N, 25, N, "N·m", 25),
    ("ninety-six inch-pounds", N, 96, N, "in-lb", 10.8465436),
    ("twenty to twenty-five newton metres", 20, 22.5, 25, "N·m", 22.5),
    ("20-25 Nm (15-18 lb-ft)", 20, 22.5, 25, "N·m", 22.5),
    ("20–25 N·m / 15–18 ft-lb", 20, 22.5, 25, "N·m", 22.5),
    ("22 N·m, 16 ft-lb, 2.2 kgf·m", N, 22, N, "N·m", 22),
    ("22 N·m (16 ft-lb; 195 in-lb)", N, 22, N, "N·m", 22),
    ("22 N·m = 16 ft-lb", N, 22, N, "N·m", 22),
    # pages in other languages
    ("25 newtons-mètre", N, 25, N, "N·m", 25),
    ("25 Newtonmetern", N, 25, N, "N·m", 25),
    ("25 newton metri", N, 25, N, "N·m", 25),
    ("25 Н·м", N, 25, N, "N·m", 25),
    ("25 Нм", N, 25, N, "N·m", 25),
    ("25 даН·м", N, 25, N, "daN·m", 250),
    ("2,5 кгс·м", N, 2.5, N, "kgf·m", 24.516625),
    ("25 кгс·см", N, 25, N, "kgf·cm", 2.4516625),
    ("25 牛·米", N, 25, N, "N·m", 25),
    ("25 N･m", N, 25, N, "N·m", 25),
    ("25 lb-pi", N, 25, N, "ft-lb", 33.8954487),
    ("25 libras pie", N, 25, N, "ft-lb", 33.8954487),
    ("25 lb-po", N, 25, N, "in-lb", 2.8246207),
    ("25 lb-pulg", N, 25, N, "in-lb", 2.8246207),
    ("2,0 à 2,5 m.daN", 2, 2.25, 2.5, "daN·m", 22.5),
    ("von 20 bis 25 Nm", 20, 22.5, 25, "N·m", 22.5),
    ("20 a 25 Nm", 20, 22.5, 25, "N·m", 22.5),
    ("20÷25 Nm", 20, 22.5, 25, "N·m", 22.5),
    ("1'200 Nm", N, 1200, N, "N·m", 1200),
    ("maxi 12 Nm", N, N, 12, "N·m", 12),
    ("5 kgf·mm", N, 5, N, "kgf·mm", 0.04903325),
    # as the standards and Japanese pages write it: NIST SP 811 (2008), 7.7, for the brackets
    ("(20 to 25) N·m", 20, 22.5, 25, "N·m", 22.5),
    ("(25 ± 2) N·m", 23, 25, 27, "N·m", 25),
    ("25 N·m {255 kgf·cm, 18 ft·lbf}", N, 25, N, "N·m", 25),
    ("25 [N·m]", N, 25, N, "N·m", 25),
    ("25 (Nm)", N, 25, N, "N·m", 25),
    ("25\tNm", N, 25, N, "N·m", 25),
    # ranges, limits and tolerances in words
    ("20 up to 25 Nm", 20, 22.5, 25, "N·m", 22.5),
    ("between 20 & 25 Nm", 20, 22.5, 25, "N·m", 22.5),
    ("min 20 Nm - max 25 Nm", 20, 22.5, 25, "N·m", 22.5),
    ("20 Nm min – 25 Nm max", 20, 22.5, 25, "N·m", 22.5),
    ("Maximum torque: 25 Nm", N, N, 25, "N·m", 25),
    ("25 Nm, do not exceed", N, N, 25, "N·m", 25),
    ("don't exceed 25 Nm", N, N, 25, "N·m", 25),
    ("25 Nm, max", N, N, 25, "N·m", 25),
    ("25 Nm -/+ 2", 23, 25, 27, "N·m", 25),
    ("25 Nm, ± 2 Nm", 23, 25, 27, "N·m", 25),
    ("25 Nm tol. ±2", 23, 25, 27, "N·m", 25),
    ("25 Nm, tolerance +2/-1", 24, 25, 27, "N·m", 25),
    ("25 Nm give or take 2", 23, 25, 27, "N·m", 25),
    ("25 Nm +/- 8 pct", 23, 25, 27, "N·m", 25),
    ("nominal 25 Nm", N, 25, N, "N·m", 25),
    # 18 ± 1 ft-lb is 23.0 to 25.8 N·m: both of its numbers are rounded
    ("25 ± 2 Nm (18 ± 1 ft-lb)", 23, 25, 27, "N·m", 25),
    ("15 N-m (1.5 kg-m, 11 ft-lb) or less", N, N, 15, "N·m", 15),
    ("15 N·m (11 ft-lb) min", 15, N, N, "N·m", 15),
    ("Couple de serrage: 25 N.m", N, 25, N, "N·m", 25),
    ("Anzugsdrehmoment 25 Nm", N, 25, N, "N·m", 25),
]

# text, stages: a number is a torque in N·m, a string an angle in degrees or a word for by hand
CHAINS: list[tuple[str, list[float | str]]] = [
    ("30 N·m + 90° + 90°", [30, "90", "90"]),
    ("30Nm+90deg+90deg", [30, "90", "90"]),
    ("30 Nm, 90 degrees, 90 degrees", [30, "90", "90"]),
    ("30 Nm/90°/90°", [30, "90", "90"]),
    ("30 Nm → 60 Nm → +75° → +75°", [30, 60, "75", "75"]),
    ("30 Nm -> 60 Nm -> 75º", [30, 60, "75"]),
    ("30 Nm + 90⁰", [30, "90"]),
    ("30 Nm + 90˚", [30, "90"]),
    ("Stage 1: 15 Nm; Stage 2: 35 Nm; Stage 3: 120 deg", [15, 35, "120"]),
    ("Stage 1: 30 Nm Stage 2: 60 Nm", [30, 60]),
    ("1st pass: 30 Nm, 2nd pass: 60 Nm", [30, 60]),
    ("1) 20 Nm 2) 40 Nm", [20, 40]),
    ("first 20 Nm, then 40 Nm, finally 90°", [20, 40, "90"]),
    ("Tighten to 30 Nm, then turn a further 90 degrees, then another 90 degrees.", [30, "90", "90"]),
    ("30 N·m + 2 x 90°", [30, "90", "90"]),
    ("30 N·m + 90° x 2", [30, "90", "90"]),
    ("30 N·m + 90° twice", [30, "90", "90"]),
    ("snug + 60° + 30°", ["hand", "60", "30"]),
    ("finger tight, then 30 N·m", ["hand", 30]),
    ("hand-tight, 30 N·m", ["hand", 30]),
    ("run down until seated + 1/4 turn", ["hand", "90"]),
    ("1/8 turn past finger tight", ["hand", "45"]),
    ("60 N·m, back off 180°, 30 N·m, 90°", [60, "-180", 30, "90"]),
    ("60 N·m, loosen 1/2 turn, 30 N·m", [60, "-180", 30]),
    ("60 N·m, loosen, 30 N·m + 90°", [60, "loosen", 30, "90"]),
    ("60 Nm, back 2 flats", [60, "-120"]),
    ("60 Nm + 1 1/2 flats", [60, "90"]),
    ("60 Nm + 3 points", [60, "90"]),
    ("60 Nm plus a quarter turn", [60, "90"]),
    ("60 Nm, then half a turn, then a third of a turn", [60, "180", "120"]),
    ("22 N·m (16 ft-lb) + 90°", [22, "90"]),
    ("30 N·m & 90°", [30, "90"]),
    ("30 N·m followed by 90°", [30, "90"]),
    ("30 N·m + 1/4 of a turn", [30, "90"]),
    ("1 turn + 90°", ["360", "90"]),
    ("90° = 1/4 turn", ["90"]),
    ("90° (1/4 turn)", ["90"]),
    ("Step 1 20 Nm Step 2 40 Nm", [20, 40]),
    ("Step one: 20 Nm; step two: 90°", [20, "90"]),
    ("first pass 20 Nm, second pass 40 Nm, final pass 90°", [20, 40, "90"]),
    ("1st stage 20 Nm, 2nd stage 90°", [20, "90"]),
    ("Stage 1 snug, Stage 2 20 Nm", ["hand", 20]),
    ("1: 20 Nm 2: 40 Nm", [20, 40]),
    ("30 Nm + 90 grados", [30, "90"]),
    ("30 Nm + 90° cw", [30, "90"]),
]


@pytest.mark.parametrize(("text", "low", "target", "high", "unit", "newton_metres"), VALUES)
def test_a_value_is_read_as_it_is_meant(
    text: str, low: float | None, target: float | None, high: float | None, unit: str, newton_metres: float
) -> None:
    torque = read_torque(text)
    assert isinstance(torque, Torque), torque
    expected = tuple(None if value is None else Fraction(str(value)) for value in (low, target, high))
    assert (torque.low, torque.target, torque.high) == expected
    assert torque.unit == unit
    exact = converted(torque, "N·m")
    aim = next(value for value in (exact.target, exact.high, exact.low) if value is not None)
    assert float(aim) == pytest.approx(newton_metres, rel=2e-7)


@pytest.mark.parametrize(("text", "stages"), CHAINS)
def test_a_chain_is_read_stage_by_stage(text: str, stages: list[float | str]) -> None:
    term = read_term(text)
    assert isinstance(term, Term), term
    assert [_plain(stage) for stage in term.stages] == stages


def _plain(stage: Torque | Angle | Hand) -> float | str:
    if isinstance(stage, Torque):
        assert stage.unit == "N·m"
        return float(stage.aim)
    if isinstance(stage, Angle):
        assert stage.degrees is not None
        return str(stage.degrees)
    return "loosen" if stage.loosen else "hand"


@pytest.mark.parametrize(
    ("text", "degrees", "low", "high"),
    [
        ("90° ± 5°", 90, 85, 95),
        ("90 ± 5°", 90, 85, 95),
        ("85–95°", None, 85, 95),
        ("90° (85–95°)", 90, 85, 95),
        ("max 90°", None, None, 90),
        ("90°, max 95°", 90, None, 95),
        ("1/2 to 3/4 turn", None, 180, 270),
        ("back off 1/4 to 1/2 turn", None, -180, -90),
        ("back off 90° ± 10°", -90, -100, -80),
        ("2 flats back", -120, None, None),
    ],
)
def test_a_turn_keeps_its_limits_and_its_direction(
    text: str, degrees: int | None, low: int | None, high: int | None
) -> None:
    term = read_term(text)
    assert isinstance(term, Term), term
    (angle,) = term.stages
    assert isinstance(angle, Angle)
    assert (angle.degrees, angle.low, angle.high) == (degrees, low, high)


@pytest.mark.parametrize(
    ("text", "words"),
    [
        ("25 lbs/ft", "one unit per the other"),
        ("800 inches/pound", "one unit per the other"),
        ("5 N/m", "one unit per the other"),
        ("50nms", "unusual"),
        ("over 50nms", "a plural"),
        ("25 nm", "unusual"),
        ("25 NM", "unusual"),
        ("25 KNM", "unusual"),
        ("25 fT-lB", "unusual"),
        ("about 25 N·m", "gives no limits"),
        ("30 N·m + 60 N·m", "not added"),
        ("33,6 ft/lbs (45,3 Nm)", "0.6 % off"),
        ("2-24 N·m", "from 2 to 24, 12 times as much"),
        ("25.000 N·m", '"25.000" is read as 25;'),
    ],
)
def test_an_unusual_way_of_writing_is_read_with_a_note(text: str, words: str) -> None:
    term = read_term(text)
    assert isinstance(term, Term)
    assert any(words in note for note in term.notes), term.notes


@pytest.mark.parametrize(
    "text",
    [
        "7-15 ft-lb",
        "24 N·m",
        "24 Nm",
        "16 Ft. Lbs",
        "16 FT-LB",
        "16 ft lbs",
        "2.5 kgm",
        "96 in-lb",
        "30 N·m + 90°",
    ],
)
def test_a_usual_way_of_writing_gives_no_note(text: str) -> None:
    term = read_term(text)
    assert isinstance(term, Term)
    assert term.notes == ()


def test_the_text_of_a_torque_leaves_its_equivalents_out() -> None:
    torque = read_torque("22–26 N·m (16–19 ft-lb)")
    assert isinstance(torque, Torque)
    assert torque.text == "22–26 N·m"
