"""More: what is needed now and then, one step away from home."""

from __future__ import annotations

from collections.abc import Sequence

from engine.game.entry import LOOK_AGAIN, Entry
from engine.kit.base import Choice, Menu, title
from engine.kit.canvas import Canvas


class More(Menu[Entry]):
    """Ends with the entry that was chosen."""

    name = "more"

    def __init__(self, choices: Sequence[Choice[Entry]]) -> None:
        """`choices` are the entries that are offered now."""
        super().__init__(choices, back=LOOK_AGAIN)

    def on_devices(self, *, cut: bool) -> None:
        """Look again at what there is to play with."""
        self.outcome = LOOK_AGAIN

    def picture(self, canvas: Canvas) -> None:
        """Only the heading."""
        title(canvas, "More")
