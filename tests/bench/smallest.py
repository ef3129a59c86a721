"""The smallest Textual app that answers a key: what the walk screen is measured against."""

from textual.app import App, ComposeResult
from textual.widgets import Static


class Smallest(App[None]):
    """One text that counts keys."""

    ENABLE_COMMAND_PALETTE = False
    count = 0

    def compose(self) -> ComposeResult:
        yield Static("READY", markup=False)

    def on_key(self) -> None:
        self.count += 1
        self.query_one(Static).update(f"READY {self.count}")


if __name__ == "__main__":
    Smallest().run(mouse=False)
