"""`torqref estimate`: clamp load and torque where no value exists, loudly an estimate."""

from __future__ import annotations

from argparse import Namespace
from typing import TYPE_CHECKING

from torqref.commands.arguments import Parser, add_shared
from torqref.commands.console import Console
from torqref.document.refusal import Refusal

if TYPE_CHECKING:
    from torqref.fastener.estimate import Estimate
    from torqref.fastener.friction import Condition
    from torqref.fastener.parent import Hole
    from torqref.fastener.thread import Thread


_EPILOG = """\
  torqref estimate M8 8.8                              dry, at 75 % of proof load
  torqref estimate 3/8-16 8 --condition oiled          an SAE grade 8 bolt
  torqref estimate M10 10.9 --k 0.16 --utilisation 65%
  torqref estimate M8 8.8 --parent aluminium --engagement 16mm
An estimate is no specification: the manufacturer's service information comes first.
"""


def add(parser: Parser) -> None:
    """The arguments of the command."""
    parser.epilog = _EPILOG
    parser.add_argument("thread", metavar="THREAD", help="such as M8, M10x1.25, 3/8-16, #10-24")
    parser.add_argument("grade", metavar="CLASS", nargs="+", help="such as 8.8, A2-70, 8 (inch), B7")
    friction = parser.add_mutually_exclusive_group()
    friction.add_argument("--k", metavar="K", help="torque factor K in T = K · F · d, such as 0.20")
    friction.add_argument("--friction", metavar="MU", help="coefficient of friction, such as 0.14")
    parser.add_argument(
        "--utilisation", metavar="U", help="share of proof load wanted, such as 0.75 or 75 %%"
    )
    parser.add_argument("--condition", metavar="C", help="dry, oiled, anti-seize, zinc, black, cadmium …")
    parser.add_argument("--parent", metavar="MATERIAL", help="what the hole is tapped in, such as aluminium")
    parser.add_argument("--engagement", metavar="LENGTH", help="full thread in the hole, such as 16mm")
    add_shared(parser)


def run(options: Namespace, console: Console) -> int:
    """Answer with the estimate, or refuse with the mend; exit code 0 or 1."""
    found = _estimate(options)
    if isinstance(found, Refusal):
        return console.refuse(found)
    if console.as_json:
        console.answer(_payload(found))
        return 0

    from torqref.fastener.statement import statement

    for line in statement(found):
        console.say(line)
    return 0


def _estimate(options: Namespace) -> Estimate | Refusal:
    from torqref.fastener.estimate import USUAL_UTILISATION, estimate
    from torqref.fastener.factor import read_friction, read_k, read_utilisation
    from torqref.fastener.grade import read_grade
    from torqref.fastener.thread import read_thread

    thread = read_thread(options.thread)
    if isinstance(thread, Refusal):
        return thread
    grade = read_grade(" ".join(options.grade), thread)
    if isinstance(grade, Refusal):
        return grade
    k = None if options.k is None else read_k(options.k)
    if isinstance(k, Refusal):
        return k
    friction = None if options.friction is None else read_friction(options.friction)
    if isinstance(friction, Refusal):
        return friction
    share = USUAL_UTILISATION if options.utilisation is None else read_utilisation(options.utilisation)
    if isinstance(share, Refusal):
        return share
    condition = _condition(options.condition)
    if isinstance(condition, Refusal):
        return condition
    hole = _hole(options.parent, options.engagement, thread)
    if isinstance(hole, Refusal):
        return hole
    return estimate(thread, grade, k=k, friction=friction, condition=condition, utilisation=share, hole=hole)


def _condition(text: str | None) -> Condition | Refusal | None:
    from torqref.fastener.friction import read_condition

    return None if text is None else read_condition(text)


def _hole(parent: str | None, engagement: str | None, thread: Thread) -> Hole | Refusal | None:
    """Parent material and engagement stand together: one without the other says nothing about stripping."""
    from torqref.fastener.parent import read_hole

    return (
        None if parent is None and engagement is None else read_hole(parent or "", engagement or "", thread)
    )


def _payload(found: Estimate) -> dict[str, object]:
    return {
        "estimate": True,
        "thread": found.thread.designation,
        "class": found.grade.name,
        "stress_area_mm2": found.stress_area_mm2,
        "proof_load_kN": found.proof_load_kN,
        "clamp_load_kN": found.clamp_load_kN.as_mapping(),
        "torque_Nm": found.torque_Nm.as_mapping(),
        "basis": found.basis,
        "condition": found.condition,
        "stripping_load_kN": found.stripping_load_kN,
        "notes": found.thread.notes,
    }
