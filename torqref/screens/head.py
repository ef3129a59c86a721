"""The first line of a screen: what it is, and what deserves to be seen on every one of them."""

from __future__ import annotations

from torqref.screens.line import Line, Piece, fitted, shown, sides, width_of


def head(name: str, right: str, width: int, *, tone: str = "quiet", ascii_only: bool = False) -> Line:
    """The name of the screen, and a word at the right end, which is left out where it does not fit.

    Args:
        name: what the screen is.
        right: what stands at the right end.
        width: cells of the line.
        tone: how the right part looks.
        ascii_only: whether to keep to ASCII signs.
    """
    left = (Piece(f" {shown(name, ascii_only=ascii_only)} ", "title"),)
    end = (Piece(f"{shown(right, ascii_only=ascii_only)} ", tone),) if right else ()
    if width_of(left) + width_of(end) >= width:
        end = ()
    return sides(left, end, width) if end else fitted(left, width)
