"""Puts a value that a page has otherwise into the library file, and takes back that it was verified."""

from __future__ import annotations

from collections.abc import Mapping

from torqref.document.problem import Problem
from torqref.document.quoting import quoted
from torqref.document.toml import Document
from torqref.document.writer import with_keys
from torqref.library.blind import checked
from torqref.library.file import parse_library

_KINDS = ("torque", "angle")


def amended_text(document: Document, identity: str, stage: int, value: str) -> str | Problem:
    """The file with one value changed and nothing else.

    Args:
        document: the file as it was read.
        identity: id of the group.
        stage: number of the stage, from 1.
        value: the value as the page has it.

    Returns:
        The text, or why the value has to be changed by hand: it stands in a chain or in a table of rows, or
        the new value does not fit what stands beside it.
    """
    number, group = _group(document.values, identity)
    key = _stage_key(group, stage)
    if key is None:
        return _by_hand(document, f"stage {stage} of {identity} is no plain value")
    text = with_keys(document.text, f"group[{number}].stage[{stage}]", {key: quoted(value)})
    if text is not None and _is_verified(document.values, group):
        text = with_keys(text, f"group[{number}].source", {"verified_by": '""'})
    text = checked(document, text, lambda values: _without(values, number, stage, key))
    if text is None:
        return _by_hand(document, f"stage {stage} of {identity} is written in an unusual way")
    file = parse_library(text.encode(), document.file)
    if all(one.id != identity for one in file.groups):
        told = next((problem.message for problem in file.problems if problem.severity == "error"), "")
        return _by_hand(document, f"{value} does not fit what stands beside it ({told})")
    return text


def _group(values: Mapping[str, object], identity: str) -> tuple[int, Mapping[str, object]]:
    groups = values.get("group")
    for number, group in enumerate(groups if isinstance(groups, list) else (), start=1):
        if isinstance(group, dict) and group.get("id") == identity:
            return number, group
    return 0, {}


def _stage_key(group: Mapping[str, object], stage: int) -> str | None:
    """The key of a plain value in a stage; passes and chains have none of their own."""
    stages = group.get("stage")
    if "passes" in group or not isinstance(stages, list) or not 0 < stage <= len(stages):
        return None
    return next((name for name in _KINDS if name in stages[stage - 1]), None)


def _is_verified(values: Mapping[str, object], group: Mapping[str, object]) -> bool:
    sources = (group.get("source"), values.get("source"))
    return any(isinstance(source, dict) and source.get("verified_by") for source in sources)


def _without(values: Mapping[str, object], number: int, stage: int, key: str) -> object:
    """Everything of a file but the value that is changed and the verification of its group."""
    groups = values.get("group")
    assert isinstance(groups, list)
    group = dict(groups[number - 1])
    source = {name: word for name, word in group.get("source", {}).items() if name != "verified_by"}
    stages = [dict(one) for one in group["stage"]]
    stages[stage - 1].pop(key, None)
    kept = {**group, "stage": stages, "source": source}
    return {**values, "group": [*groups[: number - 1], kept, *groups[number:]]}


def _by_hand(document: Document, why: str) -> Problem:
    return Problem(file=document.file, message=why, mend="Change it by hand, then check the file.")
