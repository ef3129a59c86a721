"""A press that nobody can have meant: how soon it comes, and what is said of it."""

from __future__ import annotations

from datetime import timedelta

BOUNCE = timedelta(milliseconds=200)
AHEAD = "Pressed before it could be read: ignored. Look, then press."
