"""An estimate in words: what it is, what it is for, and what it is not."""

from __future__ import annotations

from fractions import Fraction

from torqref.fastener.estimate import Band, Estimate, k_figure
from torqref.quantity.conversion import convert
from torqref.quantity.showing import second_unit


def statement(found: Estimate) -> tuple[str, ...]:
    """The lines that a person reads before using an estimate, the loudest first."""
    return (
        f"ESTIMATE, not a specification: {found.thread.designation} {found.grade.name}",
        "The manufacturer's service information comes first. Use its value if there is one.",
        *found.thread.notes,
        "",
        f"  torque       {_torque(found)}",
        f"  clamp load   {_clamp(found.clamp_load_kN)}",
        f"  proof load   {_figure(found.proof_load_kN)} kN on {_figure(found.stress_area_mm2)} mm²",
        f"  condition    {found.condition}, K = {k_figure(found.k)}",
        *_friction_lines(found),
        *_parent_lines(found),
        "",
        *_other_lines(found),
        "",
        f"Basis: {found.basis}.",
        "For a hexagon head or nut of full strength, without locking drag, tightened once, below yield.",
        *_cautions(found),
        "ESTIMATE: have it approved, or find the value.",
    )


def _units(found: Estimate) -> tuple[str, str]:
    """The unit of the whole answer and the one beside it; an inch thread has its own unit first."""
    other = second_unit("N·m", Fraction(found.torque_Nm.target))
    return (other, "N·m") if found.thread.system == "unified" else ("N·m", other)


def _torque(found: Estimate) -> str:
    one, other = (_in(unit, found.torque_Nm.target) for unit in _units(found))
    return f"{one} ({other})"


def _in(unit: str, *torques_Nm: float) -> str:
    """Torques in N·m as figures of one unit: `36.6 ft-lb`, or `36.6 and 76 ft-lb`."""
    figures = (_figure(float(convert(Fraction(torque), "N·m", unit))) for torque in torques_Nm)
    return f"{' and '.join(figures)} {unit}"


def _clamp(clamp: Band) -> str:
    band = "" if clamp.low == clamp.high else f"; {_range(clamp)} kN as friction varies from bolt to bolt"
    return f"{_figure(clamp.target)} kN at that torque{band}"


def _friction_lines(found: Estimate) -> tuple[str, ...]:
    if found.torque_Nm.low == found.torque_Nm.high:
        return (
            "  friction     one value as given; a torque wrench still scatters the clamp load by about 25 %",
        )
    unit, other = _units(found)
    ends = found.torque_Nm.low, found.torque_Nm.high
    smooth, rough = (_in(unit, end) for end in ends)
    needed = f"a smooth bolt needs {smooth}, a rough one {rough} ({_in(other, *ends)})"
    return (f"  friction     for that clamp load {needed}; which one it is cannot be seen",)


def _parent_lines(found: Estimate) -> tuple[str, ...]:
    if found.stripping_load_kN is None:
        return ("  parent       taken as a nut or hole at least as strong as the bolt",)
    held = "; the parent sets the torque, not the bolt" if found.limited else ""
    return (f"  parent       strips near {_figure(found.stripping_load_kN)} kN{held}",)


def _other_lines(found: Estimate) -> tuple[str, ...]:
    """What the same torque would do in another condition: facts about clamp load, no other torque."""
    target = found.clamp_load_kN.target
    lines = (
        f"  {condition.name:<12} {_figure(load)} kN, {_share(load / found.proof_load_kN)}"
        for condition, load in found.other_conditions
        if abs(load / target - 1) > 0.01
    )
    same = _in(_units(found)[0], found.torque_Nm.target)
    return (f"The same {same} on other threads clamps with:", *lines)


def _cautions(found: Estimate) -> tuple[str, ...]:
    stainless = "Stainless threads gall: lubricate as the source says, turn slowly."
    critical = "Never for brakes, steering, wheels, lifting or pressure parts."
    return (critical, stainless) if found.grade.family == "stainless" else (critical,)


def _share(share: float) -> str:
    return f"{share * 100:.0f} % of proof load{': TOO MUCH' if share > 1.005 else ''}"


def _range(band: Band) -> str:
    return f"{_figure(band.low)}–{_figure(band.high)}"


def _figure(value: float) -> str:
    """Three figures: an estimate is not known better."""
    return f"{value:.0f}" if value >= 100 else f"{value:.3g}"
