"""Days of a trial by days: which set-up a day has, and when a day is full."""

from collections.abc import Sequence
from dataclasses import replace
from datetime import date, timedelta

from drills.score import Reason
from engine.trial.by_days import Today, today_of
from engine.trial.randomisation import block_now, order
from engine.trial.status import status_of
from engine.trial.trial import DAY_BLIPS, DAY_PAIRS, Trial, TrialRepetition
from tests.bench.simulated_trials import BEGAN, A, B

SEED = 7
FIRST = date(2024, 5, 17)
ARMS = order(SEED, DAY_PAIRS)


def day(number: int) -> date:
    """A day, counted from the first."""
    return FIRST + timedelta(days=number)


def played(*days: tuple[int, date, int], reason: Reason = Reason.CLEAN) -> Trial:
    """A trial with so many blips of a block on a day, for each of some days."""
    blips = [
        TrialRepetition(1, block, on, reason, 8.0, 2.0, 0.4, 1)
        for block, on, count in days
        for _ in range(count)
    ]
    return trial(blips)


def trial(blips: Sequence[TrialRepetition]) -> Trial:
    """A trial by days with some blips."""
    made = Trial(1, BEGAN, "steadiness-band", A, B, DAY_PAIRS, SEED, repetitions=tuple(blips))
    return replace(made, by_days=True)


def test_each_day_has_the_set_up_that_is_drawn_in_pairs() -> None:
    whole = [(block, day(block), DAY_BLIPS) for block in range(16)]

    found = [today_of(played(*whole[:block]), day(block)) for block in range(16)]

    assert found == [Today(block, ARMS[block], 16, begun=False) for block in range(16)]
    assert [found[4].words if found[4] else ""] == ["day 5 of 16"]
    assert all({ARMS[2 * pair], ARMS[2 * pair + 1]} == set(ARMS[:2]) for pair in range(8))


def test_a_day_already_begun_keeps_its_set_up_even_when_it_is_full() -> None:
    begun = played((0, day(0), DAY_BLIPS), (1, day(1), 1))
    full = played((0, day(0), DAY_BLIPS), (1, day(1), DAY_BLIPS + 2))

    assert today_of(begun, day(1)) == Today(1, ARMS[1], 16, begun=True)
    assert today_of(full, day(1)) == Today(1, ARMS[1], 16, begun=True)
    assert today_of(full, day(2)) == Today(2, ARMS[2], 16, begun=False)


def test_a_session_that_passed_midnight_makes_the_new_day_one_of_its_block() -> None:
    over_midnight = played((0, day(0), 3), (0, day(1), 3))

    assert today_of(over_midnight, day(1)) == Today(0, ARMS[0], 16, begun=True)


def test_a_day_with_too_few_blips_is_played_again_with_the_same_set_up() -> None:
    few = played((0, day(0), DAY_BLIPS - 1))
    void = played((0, day(0), DAY_BLIPS), reason=Reason.GAP)

    assert today_of(few, day(1)) == Today(0, ARMS[0], 16, begun=False, earlier=DAY_BLIPS - 1)
    assert today_of(void, day(1)) == Today(0, ARMS[0], 16, begun=False, earlier=0)
    assert block_now(played((0, day(0), DAY_BLIPS - 1), (0, day(1), 1))) == 1


def test_when_all_days_are_full_only_the_last_of_them_goes_on() -> None:
    whole = played(*((block, day(block), DAY_BLIPS) for block in range(16)))

    assert today_of(whole, day(15)) == Today(15, ARMS[15], 16, begun=True)
    assert today_of(whole, day(16)) is None


def test_the_status_counts_pairs_of_days() -> None:
    far = status_of(played(*((block, day(block), DAY_BLIPS) for block in range(5))))

    assert far.words == "2 of 8 pairs of days are done"
    assert (far.block, far.blocks, far.done) == (6, 16, 0)
