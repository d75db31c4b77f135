"""How much of five minutes each part may take: no long level, and no single one, takes a day."""

from dataclasses import replace

import pytest

from drills.level import PassRule
from engine.five.check_time import DUE_MOST, DUE_SHARE, MORE_SHARE, MUCH_DUE
from engine.five.pace import PlayerPace
from engine.five.planner import DARK, MANY, following, plan
from engine.practice.results import Purpose
from tests.engine.five.planning import (
    BY_ID,
    EVERYTHING,
    LEVELS,
    MIDWAY,
    a_player,
    ids,
    play,
    session,
)

FIVE = 300.0  # s
LONG_HOLD = "still-4-long"
QUICK = PlayerPace({}, dict.fromkeys(("hold", "squeeze", "blip", "run", "trail", "clutch"), 6.0))


def spent(player_share: float, due: str) -> float:
    """s, on what is due, by somebody who is clean in a share of it."""
    done = frozenset({*MIDWAY, LONG_HOLD})
    _, end = play(a_player(done, (due,)), session(), share=player_share)
    return sum(one.took or 0.0 for one in end.results if one.why is Purpose.DUE)


@pytest.mark.parametrize("share", [0.0, 0.5, 0.75, 1.0])
def test_a_long_level_takes_no_more_than_half_of_the_time_however_it_goes(share: float) -> None:
    longest = a_player().pace.of(BY_ID[LONG_HOLD])

    assert spent(share, LONG_HOLD) <= DUE_MOST * FIVE + longest


def test_a_level_that_is_cut_off_stays_due() -> None:
    player = a_player(
        frozenset({*MIDWAY, LONG_HOLD}), (LONG_HOLD,), pace=PlayerPace({LONG_HOLD: 60.0})
    )

    after, end = play(player, session(), share=0.5, seed=3)

    assert 0 < [one.level for one in end.results].count(LONG_HOLD) < 4
    assert after.is_due(BY_ID[LONG_HOLD])


@pytest.mark.parametrize(("due", "share"), [(3, DUE_SHARE), (MUCH_DUE + 6, MORE_SHARE)])
def test_another_level_is_begun_only_where_half_of_it_fits_and_more_where_much_is_due(
    due: int, share: float
) -> None:
    names = tuple(level.id for level in LEVELS if level.id in MIDWAY)[-due:]

    shown = ids(plan(a_player(MIDWAY, names, pace=QUICK), session()), Purpose.DUE)

    each = 4 * 6.0
    fitting = sum(place * each + each / 2 <= share * FIVE for place in range(due))
    assert len(set(shown)) == fitting
    assert len(shown) == 4 * fitting


def test_after_many_of_one_level_on_a_day_every_second_is_a_review() -> None:
    done = MIDWAY - {"quiet-guess"} | {"blip-3-good"}
    never = replace(BY_ID["quiet-guess"], rule=PassRule(100, 100))
    only = [*(one for one in LEVELS if one.id in done), never]
    player = replace(a_player(done, pace=QUICK), levels=only, band=None)

    _, end = play(player, session(minutes=10.0), share=0.7)

    worked = [one.why for one in end.results if one.why in (Purpose.LEARN, Purpose.MIX)]
    first = worked.index(Purpose.LEARN)
    seen = 0
    for place, why in enumerate(worked):
        seen += why is Purpose.LEARN
        if seen == MANY:
            first = place + 1
            break
    later = worked[first:]
    assert seen == MANY
    assert abs(later.count(Purpose.MIX) - later.count(Purpose.LEARN)) <= 1


def test_no_mixed_level_comes_at_the_end_as_it_may_draw_a_long_one() -> None:
    pace = PlayerPace({**{level.id: 8.0 for level in LEVELS}, LONG_HOLD: 28.0})

    for seed in range(40):
        planned = plan(a_player(EVERYTHING, pace=pace), session(seed=seed))

        assert "mixed" not in {one.level.kind.name for one in planned[-DARK:]}


def test_the_last_three_are_three_for_nearly_every_player() -> None:
    dark = []
    for seed in range(60):
        player = a_player(MIDWAY)
        _, end = play(player, session(seed=seed), share=0.8, seed=seed, uneven=0.25)
        dark.append(sum(one.why is Purpose.DARK for one in end.results))

    assert sum(count >= DARK for count in dark) >= 57


def test_the_first_check_comes_even_where_it_does_not_fit() -> None:
    player = a_player(MIDWAY, ("blip-1-first",), pace=PlayerPace({"blip-1-first": 100.0}))

    planned = following(player, session())

    assert planned is not None
    assert planned.why is Purpose.DUE
