"""What goes where on the job screen, and what is dropped first: one table, as for the walk screen.

The first four are never dropped: what kind of step it is, that the values are for practice, what became of
the last key, and the answers. The words of the step are never cut short unseen: what has no room comes on
the next page, and no key passes the step before all of it was shown.
"""

from __future__ import annotations

from torqref.screens.layout import Part

# In reading order.
PARTS = (
    Part("title", 2, 1, "the repair, and that these are practice values"),
    Part("track", 9, 1, "every step as one mark, and how many are done"),
    Part("bar", 1, 1, "the kind of step, and which of how many"),
    Part("body", 5, 400, "the words of the step, what is wanted, deadlines, what to mind"),
    Part("options", 4, 9, "the answers of a question"),
    Part("due", 6, 1, "how many things are waiting"),
    Part("list", 8, 3, "the steps around the present one, with their marks"),
    Part("keys", 7, 1, "the keys"),
    Part("say", 3, 3, "what became of the last key, or the line being typed; else the keys"),
)
ROWS = {part.name: part for part in PARTS}
# Text that is cut, with a sign that it is, rather than left out.
CUT = ("body", "options", "say")
# Parts of a screen that shows a caution, an opening or a list alone.
ALONE = ("title", "bar", "body", "options", "keys", "say")
# So many lines of the list stay when words are drawn large.
LEAST_LIST = ROWS["list"].least
