"""The JSON Schemas of library, rack and job files, made from their readers and committed beside them.

`python -m torqref.library.schema` writes them anew; a test compares them with what is committed.
"""

from __future__ import annotations

import json
from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from pathlib import Path

from torqref.document.schema import TEXT, TEXTS, Builder, Reader, described, sketched
from torqref.library.fastener import Fastener
from torqref.library.file import FORMAT, LibraryFile, read_library
from torqref.library.group import Caution, Group, Parent, Part
from torqref.library.item import Item, Notice
from torqref.library.job import KINDS as STEP_KINDS
from torqref.library.job import Job, Recheck, Step, job_in
from torqref.library.reference import Variant
from torqref.library.source import Source
from torqref.library.stage import KINDS, Stage
from torqref.wrench.rack import Adapter, Wrench
from torqref.wrench.rack_file import ADAPTER_KINDS, read_tools
from torqref.wrench.scale import Scale

FOLDER = Path(__file__).parent / "schemas"

Schema = Mapping[str, object]

_FORMAT: Schema = {"const": FORMAT}
_OPEN: Schema = {"type": "object", "additionalProperties": TEXTS}
_LABELS: Schema = {"anyOf": [TEXT, {"type": "array", "items": {"type": ["integer", "string"]}}]}
_ORDER: Schema = {"anyOf": [TEXT, {"type": "array"}]}
_DATE: Schema = {"type": "string", "description": "a date of TOML, or the same as text, year-month-day"}
_COUNT: Schema = {"type": "integer", "minimum": 1}


def _one_of(kinds: Iterable[str]) -> Schema:
    return {"oneOf": [{"required": [kind]} for kind in kinds]}


@dataclass(frozen=True, slots=True, kw_only=True)
class Format:
    """One kind of file.

    Args:
        title: what it is.
        reader: reads its top table.
        samples: documents that lead the reader into all its branches.
        classes: the dataclass of each table, whose docstring says what its fields are.
        renamed: keys that are called otherwise in their dataclass.
        described: words about keys that have no field of their own.
        overrides: keys whose reader does not say what they may hold.
    """

    title: str
    reader: Reader
    samples: tuple[Schema, ...]
    classes: Mapping[str, type]
    renamed: Mapping[str, str]
    described: Mapping[str, str]
    overrides: Mapping[str, Schema]


_RENAMED = {
    "class": "grade",
    "while": "meanwhile",
    "until": "until_still",
    "else": "otherwise",
    "removal_order": "removal",
}
_GROUP_WORDS = {
    "diagram": "the pattern as the page draws it: numbers are bolts, other words are landmarks",
    "layout": "where the bolts are, without a drawing: circle, rows or points",
    "count": "how many bolts, where they need no picture",
    "order": "order of visiting, such as 1 5 3 7, or 1+9 5+13 for bolts pulled together",
    "stage": "the instructions of the page, one after the other",
    "fastener": "positions with a thread, length or value of their own",
    "applies": 'facts of the vehicle it is for, such as engine = ["Q"]',
    "aliases": "other words by which it is looked for",
    "parts": "parts to lay out",
    "parent": "what the thread is cut into",
    "cautions": "cautions; those marked alone get a screen of their own",
    "before": "what has to be so, or done, before the first pull",
    "after": "what to do or look at when all is tightened",
    "blind_holes": "blown dry first: trapped fluid cracks castings",
    "trouble_reasons": "reasons to choose from by digit, in the place of the usual ones",
}
_STAGE_WORDS = {
    "place": "what goes where, such as lengths",
    "hand": "by hand, in words",
    "torque": "torque as printed, with its unit; an equivalent may follow in brackets",
    "angle": "turn as printed, such as 90°",
    "back_off": "turn back, such as half a turn",
    "align": "turn on, or back, to the next slot",
    "up_to": "the most torque on the way forward to a slot",
    "back_at_most": "the most turn on the way back to a slot",
    "measure": "what to measure",
    "wait": "what to wait for",
    "chain": "several stages in one text, such as 30 N·m + 90° + 90°",
    "window": "limits of the value: 22–26 N·m, or ±5°",
    "until": "still: the round is repeated while any bolt moved",
    "else": "stage to go back to, such as stage 1",
}
_TABLE_WORDS = {
    "rows": "names of the columns, then one line a row, two blanks between cells",
    "variant": "rules of the page that lower every value under another condition",
    "stage": "what all rows share in their stage, such as measure or hold",
}


def _under(path: str, words: Mapping[str, str]) -> dict[str, str]:
    return {f"{path}.{name}".lstrip("."): text for name, text in words.items()}


def _group_samples(name: str) -> Iterable[Schema]:
    """Groups that lead into each kind of stage and each way to say where the bolts are."""
    for kind in KINDS:
        yield {name: [{"stage": [{kind: ""}]}]}
    for layout in ({"circle": 1}, {"rows": [1]}, {"points": [[0, 0]]}):
        yield {name: [{"layout": layout}]}
    yield {name: [{"diagram": "1", "cautions": [{}], "order": "1", "removal_order": "1"}]}


def _cautions(path: str) -> Schema:
    return {
        "type": "array",
        "items": {"anyOf": [TEXT, {"$ref": f"#/$defs/{path}.cautions".replace("/.", "/")}]},
    }


def _group_overrides(path: str) -> dict[str, Schema]:
    return {
        f"{path}.applies": _OPEN,
        f"{path}.count": _COUNT,
        f"{path}.cautions": {
            "type": "array",
            "items": {"anyOf": [TEXT, {"$ref": f"#/$defs/{path}.cautions"}]},
        },
        f"{path}.order": _ORDER,
        f"{path}.removal_order": _ORDER,
        f"{path}.fastener.at": _LABELS,
        f"{path}.layout.rows": {"type": "array", "items": {"type": "integer"}},
        f"{path}.layout.points": {"type": "array", "items": {"type": "array", "items": {"type": "number"}}},
        f"{path}.source.verified_on": _DATE,
        f"{path}.stage.at": _LABELS,
        f"{path}.stage.order": _ORDER,
    }


_LIBRARY = Format(
    title="torqref library file: the fastener groups of one assembly",
    reader=read_library,
    samples=(
        *_group_samples("group"),
        *_group_samples("table"),
        {"table": [{"rows": "thread  torque\nM6  10 N·m", "variant": [{}]}]},
    ),
    classes={
        "": LibraryFile,
        "source": Source,
        **{
            f"{path}{name}": cls
            for path in ("group", "table")
            for name, cls in {
                "": Group, ".source": Source, ".stage": Stage, ".fastener": Fastener, ".parts": Part,
                ".parent": Parent, ".cautions": Caution,
            }.items()
        },
        "table.variant": Variant,
    },
    renamed=_RENAMED,
    described={
        "format": "version of the format",
        "source": "where the values of all groups come from, as far as a group says nothing else",
        "group": "a fastener group: the bolts of one joint",
        "table": "a reference table of a standard or handbook, each row of it a group",
        **_under("group", _GROUP_WORDS),
        **_under("table", {**_GROUP_WORDS, **_TABLE_WORDS}),
        **_under("group.stage", _STAGE_WORDS),
    },
    overrides={
        "format": _FORMAT,
        "source.verified_on": _DATE,
        ".": {"required": ["format"]},
        "group.stage.": _one_of(KINDS),
        **_group_overrides("group"),
        **_group_overrides("table"),
        "table.rows": TEXT,
        "table.stage": {"type": "object"},
        "group.": {"required": ["id", "stage"]},
        "table.": {"required": ["id", "rows"]},
    },
)  # fmt: skip

_RACK = Format(
    title="torqref rack file: wrenches, and adapters measured once",
    reader=read_tools,
    samples=(
        {"wrench": [{"kind": "preset"}]},
        {"wrench": [{"kind": "click", "scale": [{}]}]},
        *({"adapter": [{"kind": kind}]} for kind in ADAPTER_KINDS),
        {"adapter": [{"kind": "crowfoot", "piece": []}]},
    ),
    classes={"wrench": Wrench, "wrench.scale": Scale, "adapter": Adapter},
    renamed={},
    described={
        "format": "version of the format",
        "wrench": "one wrench",
        "wrench.iso": "type and class of ISO 6789, such as II A, in the place of a tolerance",
        "wrench.calibrated": "the day of the last calibration, where only that is known",
        "wrench.scale.range": "both ends of the scale, such as 10–60 N·m",
        "wrench.scale.value": "the value of a preset wrench",
        "adapter": "one adapter",
        "adapter.offset": "drive centre to fastener centre",
        "adapter.angle": "from straight out, in degrees",
        "adapter.piece": "several pieces in a row",
    },
    overrides={
        "format": _FORMAT,
        ".": {"required": ["format"]},
        **dict.fromkeys(("wrench.calibration_due", "wrench.calibrated", "adapter.measured_on"), _DATE),
    },
)

_JOB = Format(
    title="torqref job file: a whole repair from laying out tools to sign-off",
    reader=job_in,
    samples=(
        *({"step": [{kind: "x"}]} for kind in STEP_KINDS),
        {"cautions": [{}], "recheck": [{"due": {"km": 1}}]},
    ),
    classes={
        "": Job, "source": Source, "step": Step, "recheck": Recheck, "cautions": Notice,
        "parts": Item, "fluids": Item, "tools": Item,
    },
    renamed={"job": "id"},
    described={
        "format": "version of the format",
        "step": "what to do, in order",
        "recheck": "what stays due after sign-off",
        **_under("step", {
            "safe": "must be so before anything goes on", "text": "a page, or alone",
            "do": "id of the group to walk", "check": "a look or a reading", "wait": "what to wait for",
        }),
    },
    overrides={
        "format": _FORMAT,
        ".": {"required": ["format", "job", "step"]},
        "source.verified_on": _DATE,
        "facts": _OPEN,
        "step.applies": _OPEN,
        "step.": _one_of(STEP_KINDS),
        "cautions": _cautions(""),
    },
)  # fmt: skip

FORMATS: Mapping[str, Format] = {"library": _LIBRARY, "rack": _RACK, "job": _JOB}


def schema_of(name: str) -> dict[str, object]:
    """The schema of a format, made from its reader.

    Args:
        name: `library`, `rack` or `job`.
    """
    format_ = FORMATS[name]
    builder = Builder(described=_described(format_), overrides=format_.overrides)
    return builder.document(
        sketched(format_.reader, format_.samples), format_.title, f"urn:torqref:{name}:{FORMAT}"
    )


def _described(format_: Format) -> dict[str, str]:
    """Words about keys: those of the dataclasses, then those of the format itself."""
    renamed = {field: key for key, field in format_.renamed.items()}
    found = {
        f"{path}.{renamed.get(name, name)}".lstrip("."): words
        for path, cls in format_.classes.items()
        for name, words in described(cls).items()
    }
    return {**found, **format_.described}


def schema_text(name: str) -> str:
    """The same as the text of its file."""
    return json.dumps(schema_of(name), indent=1, ensure_ascii=False) + "\n"


def schema_file(name: str) -> Path:
    """Where the committed schema of a format stands."""
    return FOLDER / f"{name}.schema.json"


if __name__ == "__main__":
    FOLDER.mkdir(exist_ok=True)
    for each in FORMATS:
        schema_file(each).write_text(schema_text(each), encoding="utf-8")
