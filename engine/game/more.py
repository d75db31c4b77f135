"""More: what is needed now and then, one step away from home."""

from __future__ import annotations

from engine.game.home import Go
from engine.kit.base import Choice, Menu, title
from engine.kit.canvas import Canvas


class More(Menu[Go]):
    """Ends with where to go; going back is Go.AGAIN."""

    name = "more"

    def __init__(self, *, pedals: str, sound: str, trial: str, drives: str = "") -> None:
        """`pedals` says in a few words what is played with, `sound` how loud it is.

        `trial` says where trials stand, `drives` what recording a drive is for; it is empty where
        none can be recorded.
        """
        record = Choice("Record a drive", Go.RECORD, drives)
        choices = [
            Choice("Try a foot position", Go.TRIAL, trial),
            *([record] if drives else []),
            Choice("Set up the pedals", Go.PEDALS, pedals),
            Choice("Sound and light", Go.SOUND, sound),
            Choice("Watch the demo", Go.DEMO, "a simulated foot plays a set"),
            Choice("Back", Go.AGAIN),
        ]
        super().__init__(choices, back=Go.AGAIN)

    def on_devices(self, *, cut: bool) -> None:
        """Look again at what there is to play with."""
        self.outcome = Go.AGAIN

    def picture(self, canvas: Canvas) -> None:
        """Only the heading."""
        title(canvas, "More")
