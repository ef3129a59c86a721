"""The seal of a line of a journal: a checksum over it, and the hash of the line before."""

from __future__ import annotations

import hashlib
import json
import zlib
from typing import Any

FIRST = "0" * 16
# Length of what stands behind the fields of a line: `,"before":"…","sum":"…"}`.
SEAL_LENGTH = len(f',"before":"{FIRST}","sum":"{0:08x}"}}')


def seal(told: dict[str, Any], before: str) -> bytes:
    """One line: the fields, the hash of the line before, and a checksum over all of it."""
    body = json.dumps({**told, "before": before}, ensure_ascii=True, separators=(",", ":"))[:-1].encode()
    return body + _sum(body)


def _sum(body: bytes) -> bytes:
    return f',"sum":"{zlib.crc32(body):08x}"}}'.encode()


def _body(line: bytes) -> bytes | None:
    """A line up to its checksum; None where that does not fit."""
    body = line.rpartition(b',"sum":"')[0]
    return body if body and line == body + _sum(body) else None


def unseal(line: bytes, before: str) -> dict[str, Any]:
    """The fields of a line whose checksum and hash fit.

    Raises:
        ValueError: they do not.
    """
    body = _body(line)
    if body is None:
        raise ValueError("wrong checksum")
    told = json.loads(body + b"}")
    if not isinstance(told, dict) or told.pop("before", None) != before:
        raise ValueError("wrong hash of the line before")
    return told


def sealed_lines(data: bytes) -> list[bytes] | None:
    """The lines of a journal, not taken apart; None where a seal does not fit or the end is torn."""
    if not data.endswith(b"\n"):
        return None
    lines = data[:-1].split(b"\n")
    before = FIRST
    for line in lines:
        body = _body(line)
        if body is None or not body.endswith(f',"before":"{before}"'.encode()):
            return None
        before = hash_of(line)
    return lines


def hash_of(line: bytes) -> str:
    """What the next line holds of this one."""
    return hashlib.sha256(line).hexdigest()[:16]
