"""Frozen dataclasses as plain JSON values and back: fractions as "3/2", empty fields left out."""

from __future__ import annotations

import types
from collections.abc import Hashable, Mapping
from dataclasses import MISSING, fields, is_dataclass
from fractions import Fraction
from functools import cache
from typing import Any, TypeVar, Union, cast, get_args, get_origin, get_type_hints

Made = TypeVar("Made")


def to_plain(value: Any) -> Any:
    """A value as strings, numbers, lists and tables; fields that hold their default are left out."""
    if isinstance(value, Fraction):
        return str(value)
    if isinstance(value, tuple | list):
        return [to_plain(entry) for entry in value]
    if is_dataclass(value) and not isinstance(value, type):
        return {
            name: to_plain(getattr(value, name))
            for name, default in _defaults(type(value))
            if default is MISSING or getattr(value, name) != default
        }
    return value


def from_plain(kind: type[Made], data: Mapping[str, Any]) -> Made:
    """A dataclass from a plain table; unknown fields are left alone, so that later formats can still be read.

    Raises:
        ValueError, TypeError, KeyError: the table does not hold what the class needs.
    """
    hints = _hints(cast("Hashable", kind))
    return kind(**{name: _restore(hint, data[name]) for name, hint in hints.items() if name in data})


@cache
def _hints(kind: Hashable) -> dict[str, Any]:
    return get_type_hints(kind)


@cache
def _defaults(kind: Any) -> tuple[tuple[str, Any], ...]:
    return tuple((field.name, field.default) for field in fields(kind))


def _restore(hint: Any, value: Any) -> Any:
    if value is None:
        return None
    origin = get_origin(hint)
    if origin in (Union, types.UnionType):
        return _restore(next(kind for kind in get_args(hint) if kind is not type(None)), value)
    if origin is tuple:
        return _restore_tuple(get_args(hint), value)
    if hint in (Fraction, float) and not isinstance(value, bool):
        return hint(value)  # JSON writes 2.0 and 2 alike
    if isinstance(hint, type) and is_dataclass(hint):
        return from_plain(hint, value)
    if isinstance(hint, type) and not isinstance(value, hint):
        raise TypeError(f"found {type(value).__name__}, expected {hint.__name__}")
    return value


def _restore_tuple(kinds: tuple[Any, ...], value: Any) -> tuple[Any, ...]:
    if len(kinds) == 2 and kinds[1] is Ellipsis:
        return tuple(_restore(kinds[0], entry) for entry in value)
    return tuple(_restore(kind, entry) for kind, entry in zip(kinds, value, strict=True))
