"""The end of a set: how it went, whether the level is passed, and what to do now."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from enum import Enum

from drills.level import Level
from engine.screens import theme, widgets
from engine.screens.base import Choice, Menu, title
from engine.screens.canvas import Canvas
from engine.screens.widgets import Figure


class Then(Enum):
    """What follows a set, other than a level."""

    HOME = "home"


@dataclass(frozen=True)
class Tally:
    """How a set went."""

    counted: int
    """count of repetitions that counted."""
    clean: int
    """count of clean ones."""
    void: int
    """count of those that did not count."""
    score: float | None
    """0 to 100, median of those that counted; None where none did."""
    clean_row: int
    """count of clean repetitions in a row, over all sets."""
    latest_clean: int
    """count of clean ones among the latest that the pass rule looks at."""
    passed: bool
    """Whether the level is passed."""
    given_up: bool = False
    """Whether it ended because too many in a row did not count."""


class SetEnd(Menu[Level | Then]):
    """Ends with a level to go on with, or Then.HOME."""

    name = "set end"

    def __init__(self, level: Level, tally: Tally, following: Level) -> None:
        choices: list[Choice[Level | Then]] = [Choice(f"Once more: {level.title}", level)]
        if following.id != level.id:
            choices.insert(0, Choice(f"Go on: {following.title}", following))
        super().__init__([*choices, Choice("Home", Then.HOME)], back=Then.HOME)
        self._level = level
        self._tally = tally

    def details(self) -> Mapping[str, object]:
        """The numbers."""
        return {**super().details(), **vars(self._tally), "level": self._level.id}

    def picture(self, canvas: Canvas) -> None:
        """The figures and the pass rule in words."""
        tally, rule = self._tally, self._level.rule
        y = title(canvas, f"{self._level.title}: the set is over") + 20
        score = "-" if tally.score is None else f"{tally.score:.0f}"
        row = [
            Figure("Clean", f"{tally.clean} of {tally.counted}", "repetitions"),
            Figure("Score", score, "middle of the set"),
            Figure("In a row", f"{tally.clean_row}", "clean repetitions"),
        ]
        widgets.figures(canvas, (theme.MARGIN, y), theme.WIDTH - 2 * theme.MARGIN, row)
        wanted = f"{rule.clean} clean of the last {rule.of} pass it"
        said = f"Not passed yet: {wanted}, you have {tally.latest_clean}."
        if tally.passed:
            said = "Passed. Whether it is learned shows on another day."
        y = canvas.text(said, (theme.MARGIN, y + 190), theme.BODY + 6, width=1680)
        if tally.void:
            some = "One repetition" if tally.void == 1 else f"{tally.void} repetitions"
            why = " The set was given up." if tally.given_up else ""
            said = f"{some} did not count.{why}"
            canvas.text(said, (theme.MARGIN, y + 10), theme.BODY, theme.QUIET)
