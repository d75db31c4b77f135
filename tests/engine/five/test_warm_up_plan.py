"""What a warm-up is made of: what is due is left to be shown cold, where there is another."""

from datetime import UTC, datetime, timedelta

import pytest

from engine.five.player_state import PlayerState
from engine.five.warm_up_plan import warming
from engine.ladder.level_files import SHIPPED, load_band, load_levels
from engine.practice.results import Session, SessionKind
from engine.practice.retention import Retention

LEVELS, BAND = load_levels([SHIPPED]), load_band()
NOW = datetime(2024, 5, 17, 18, tzinfo=UTC)
TODAY, LATER = NOW.date(), NOW.date() + timedelta(days=5)
HOLDS = ("still-1-light", "still-2-firm", "still-3-dark")


def first_of(*due: str) -> str:
    """The level of the first repetition, for somebody who passed three holds, some of them due."""
    retention = {one: Retention(due=TODAY if one in due else LATER) for one in HOLDS}
    player = PlayerState(TODAY, LEVELS, frozenset(HOLDS), retention, band=BAND)
    planned = warming(player, Session(1, SessionKind.WARM_UP, NOW, 3.0, 1))
    assert planned is not None
    return planned.level.id


@pytest.mark.parametrize(
    ("due", "wanted"),
    [
        ((), "still-3-dark"),
        (("still-3-dark",), "still-2-firm"),
        (("still-2-firm", "still-3-dark"), "still-1-light"),
        (HOLDS, "still-3-dark"),
    ],
)
def test_the_hardest_hold_that_is_not_due_comes_first(due: tuple[str, ...], wanted: str) -> None:
    assert first_of(*due) == wanted
