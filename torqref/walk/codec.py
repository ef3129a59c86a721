"""Frozen dataclasses as plain JSON values and back: fractions as "3/2", empty fields left out."""

from __future__ import annotations

import re
import types
from collections.abc import Callable, Hashable, Mapping
from dataclasses import MISSING, fields, is_dataclass
from fractions import Fraction
from functools import cache, lru_cache
from typing import Any, TypeVar, Union, cast, get_args, get_origin, get_type_hints

Made = TypeVar("Made")
_LARGEST = 10**12
_NUMBERS = (int, float)
_FRACTION = re.compile(r"-?\d{1,200}(/0*[1-9]\d{0,200})?")
Restorer = Callable[[Any], Any]


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
    made: Made = _restorer(cast("Hashable", kind))(data)
    return made


def parts_from_plain(kind: type[Any], data: Mapping[str, Any]) -> dict[str, Any]:
    """The fields of a dataclass from a plain table, only those that it has; the same as in `from_plain`.

    Raises:
        ValueError, TypeError, KeyError: a field does not hold what it must.
    """
    restorers = _fields(cast("Hashable", kind))
    return {name: restorers[name](value) for name, value in data.items() if name in restorers}


@cache
def _fields(kind: Any) -> dict[str, Restorer]:
    return {name: _restorer(hint) for name, hint in get_type_hints(kind).items()}


@cache
def _defaults(kind: Any) -> tuple[tuple[str, Any], ...]:
    return tuple((field.name, field.default) for field in fields(kind))


@cache
def _restorer(hint: Any) -> Restorer:
    """What makes a value of a type from plain ones: worked out once a type, as a folder has many records."""
    origin = get_origin(hint)
    if origin in (Union, types.UnionType):
        inner = _restorer(next(kind for kind in get_args(hint) if kind is not type(None)))
        return lambda value: None if value is None else inner(value)
    if origin is tuple:
        return _tuple_restorer(get_args(hint))
    if hint in (Fraction, float):
        return _number_restorer(hint)
    if isinstance(hint, type) and is_dataclass(hint):
        return _table_restorer(hint)
    if isinstance(hint, type):
        return _plain_restorer(hint)
    return lambda value: value


def _table_restorer(kind: Any) -> Restorer:
    def restored(data: Any) -> Any:
        # JSON makes dicts; to ask whether they are mappings costs as much as to read a small one.
        if type(data) is not dict and not isinstance(data, Mapping):
            raise TypeError(f"found {type(data).__name__}, expected a table")
        # The fields are looked up when the first table comes, as a class may hold itself.
        return kind(**parts_from_plain(kind, data))

    return restored


def _tuple_restorer(kinds: tuple[Any, ...]) -> Restorer:
    if len(kinds) == 2 and kinds[1] is Ellipsis:
        entry = _restorer(kinds[0])
        return lambda value: tuple(map(entry, _listed(value)))
    parts = tuple(_restorer(kind) for kind in kinds)
    return lambda value: tuple([restorer(part) for restorer, part in zip(parts, _listed(value), strict=True)])


def _listed(value: Any) -> list[Any]:
    if not isinstance(value, list):
        raise TypeError(f"found {type(value).__name__}, expected a list")
    return value


def _number_restorer(kind: Any) -> Restorer:
    def number(value: Any) -> Any:
        if isinstance(value, str):
            exact = _fraction(value)
            return exact if kind is Fraction else kind(value)
        if isinstance(value, bool) or not isinstance(value, _NUMBERS):
            raise TypeError(f"found {type(value).__name__}, expected {kind.__name__}")
        # JSON writes 2.0 and 2 alike; what is too long, infinite or over nothing no walk has written.
        if not -_LARGEST < value < _LARGEST:
            raise ValueError("a number beyond all bounds")
        return kind(value)

    return number


@lru_cache(maxsize=1024)
def _fraction(text: str) -> Fraction:
    if not _FRACTION.fullmatch(text):
        raise ValueError("not a fraction")
    return Fraction(text)


def _plain_restorer(kind: type) -> Restorer:
    def checked(value: Any) -> Any:
        if not isinstance(value, kind):
            raise TypeError(f"found {type(value).__name__}, expected {kind.__name__}")
        return value

    return _whole if kind is int else checked


def _whole(value: Any) -> int:
    # A truth value is a whole number to Python, and never to a walk.
    if type(value) is not int or not -_LARGEST < value < _LARGEST:
        raise ValueError("not a whole number in its bounds")
    return value
