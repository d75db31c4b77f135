"""Levels of a made-up kind of drill with the name of counting, which a held brake passes."""

from dataclasses import replace

from drills.kinds.counting import CountingDrill
from tests.made import HOLD


class HeldCounting(type(HOLD.kind)):  # type: ignore[misc]
    """Holds under the name of the kind in which knocks are counted."""

    name = CountingDrill.name
    in_pairs = True


EASY = replace(HOLD, id="count-easy", title="Count slowly", kind=HeldCounting())
HARD = replace(EASY, id="count-hard", title="Count quickly", needs=("count-easy",))
