"""Screen shown while the pedals of a set are unplugged."""

from __future__ import annotations

from engine.kit import theme
from engine.kit.base import Choice, Menu, title
from engine.kit.canvas import Canvas


class Unplugged(Menu[bool]):
    """The pedals are not there for a set; ends by itself when a device is plugged in."""

    name = "unplugged"
    back_word = "leave the set"

    def __init__(self, alike: bool = False) -> None:
        """`alike`: devices are there, but it cannot be told which of them is which."""
        super().__init__([Choice("Leave the set", False)], back=False)
        self._alike = alike

    def on_devices(self, *, cut: bool) -> None:
        """Whatever was plugged in, look again."""
        self.outcome = True

    def picture(self, canvas: Canvas) -> None:
        """What happened, and that nothing is lost."""
        said = "The pedals are unplugged"
        todo = "Plug them in and the set goes on. Everything done so far is kept."
        if self._alike:
            said = "Which device is which?"
            todo = (
                "Two devices are alike and were both plugged anew. Leave the set and set up the "
                "pedals again. Everything done so far is kept."
            )
        y = title(canvas, said) + 20
        canvas.text(
            todo,
            (theme.MARGIN, y),
            theme.BODY + 6,
            width=theme.WIDTH - 2 * theme.MARGIN,
        )
