"""Published orders, and layouts that several tests use."""

from __future__ import annotations

from pathlib import Path
from typing import Any

import tomli

from torqref.pattern.diagram import read_diagram
from torqref.pattern.layout import Layout, Order
from torqref.pattern.order import read_order

PUBLISHED: dict[str, Any] = tomli.loads(
    (Path(__file__).parent / "published_orders.toml").read_text(encoding="utf-8")
)
ORDERS: list[dict[str, Any]] = PUBLISHED["order"]

# Invented patterns of the kinds a service page prints.
HEAD = """
  FRONT   9   5   1   3   7    exhaust side
         10   6   2   4   8    inlet side
"""
MANIFOLD = """
            FRONT
   7   3   1   5   9
   8   4   2   6   10
"""
PUMP = """
        2        6
    8                4
          (shaft)
    3                7
        5    1   9
"""


def layout(made: object) -> Layout:
    """What was made, which must be a layout."""
    assert isinstance(made, Layout), made
    return made


def drawn(text: str) -> Layout:
    """The layout of a diagram."""
    return layout(read_diagram(text))


def order(value: str | list[object]) -> Order:
    """The order somebody typed."""
    read = read_order(value)
    assert isinstance(read, Order), read
    return read
