"""Lengths of a trial on offer: what each finds with the player's own spread, and its time."""

from itertools import pairwise

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from drills.score import Reason, Verdict
from engine.practice.results import Purpose
from engine.stage.actions import Action
from engine.stage.scene import Attended
from engine.store import History
from engine.store.repetitions import add_repetition
from engine.trial.choosing_length import likely_change, nearest, spread_on
from engine.trial.length import (
    LENGTHS,
    ChangeTime,
    Length,
    OwnSpread,
    changes,
    guessed,
    lengths,
    own_spread,
)
from engine.trial.length_screens import TrialLength
from engine.trial.outcome import USUAL_SPREAD, detectable_difference
from engine.trial.randomisation import order
from engine.trial.saved_length import change_time, keep_change_time, newest_blips
from engine.trial.setup_screens import TrialBack
from engine.trial.trial import BLOCK, Ball, SetUp, Shoes, Spacing
from tests.engine.five.learning_foot import passes
from tests.engine.kit.recording_canvas import said
from tests.engine.trial.two_positions import BAND, BY_ID, EVENING, LEVEL, LEVELS, Trying, toes
from tests.engine.walking import Step, back, choose
from tests.made import record

GO: tuple[str, Step] = ("set-up", "Go on")
TO_LEVEL = (GO, ("set-up", toes))
HARDER = BY_ID["blip-2b-moving"]


@pytest.fixture
def trying(history: History) -> Trying:
    """A player without a trial, who has passed the levels up to the runs."""
    passes(history, *LEVELS[: [level.id for level in LEVELS].index("run-3-even")])
    return Trying(history)


def blips(
    history: History,
    level: str,
    count: int = 24,
    off: float = 6.0,
    peaks: tuple[float, ...] = (60.0,),
    **changed: object,
) -> None:
    """Store blips of a level, with dips that are so many points off their middle of 10."""
    for number in range(count):
        dip = 10.0 + (-off, off)[number % 2]
        measures = {"dip": dip, "peak": peaks[number % len(peaks)]}
        verdict = Verdict(Reason.CLEAN, 60.0, (), measures)
        one = record(verdict=verdict, at=EVENING, trace=None, sampling=None, level=level, **changed)
        add_repetition(history, one)


def test_the_spread_is_that_of_the_blips_on_the_level_of_the_trial(history: History) -> None:
    blips(history, HARDER.id, off=1.0)
    blips(history, LEVEL.id, off=6.0)

    found = spread_on(LEVEL, LEVELS, history)

    assert found.points == pytest.approx(1.4826 * 6.0)
    assert (found.level, found.count, found.is_of_trial) == (LEVEL.title, 24, True)
    assert found.words == f'That follows from your newest 24 blips on "{LEVEL.title}".'


def test_with_too_few_blips_the_nearest_level_of_the_kind_that_has_enough_is_taken(
    history: History,
) -> None:
    blips(history, LEVEL.id, count=19)
    blips(history, "run-1-two", off=1.0)
    blips(history, "blip-0-roll", off=2.0)
    blips(history, BAND.id, off=3.0)
    far = spread_on(LEVEL, (*LEVELS, BAND), history)
    blips(history, HARDER.id, off=4.0)
    near = spread_on(LEVEL, (*LEVELS, BAND), history)

    assert (far.level, near.level) == (BY_ID["blip-0-roll"].title, HARDER.title)
    assert not near.is_of_trial
    assert near.words == f'That is a guess from your blips on "{HARDER.title}".'


def test_without_enough_blips_anywhere_the_spread_is_a_guess_and_says_so(
    history: History,
) -> None:
    found = spread_on(LEVEL, LEVELS, history)

    assert found == OwnSpread(USUAL_SPREAD)
    assert found.words == "That is a guess: you have too few blips yet."


def test_a_level_of_ones_own_that_is_not_among_the_levels_has_the_last_as_its_nearest() -> None:
    alike = [level for level in LEVELS if level.kind.name == "blip"]

    assert nearest(LEVEL, LEVELS)[0] is LEVEL
    assert nearest(LEVEL, alike[3:]) == alike[:2:-1]


def test_blips_of_trials_and_without_a_peak_are_left_out_and_only_the_newest_are_read(
    history: History,
) -> None:
    blips(history, LEVEL.id, count=2, off=0.0, why=Purpose.TRIAL)
    blips(history, LEVEL.id, count=3, peaks=(50.0, 60.0, 70.0))
    add_repetition(
        history,
        record(verdict=Verdict(Reason.CLEAN, 60.0, (), {"dip": 9.0}), level=LEVEL.id, trace=None),
    )

    assert newest_blips(history, LEVEL.id, 2) == [(16.0, 60.0), (4.0, 70.0)]
    assert newest_blips(history, LEVEL.id, 9, after=4) == [(4.0, 70.0)]


def test_the_spread_is_the_larger_of_the_dips_as_they_are_and_scaled() -> None:
    dips = [8.0, 12.0] * 10
    small = [(dip, 30.0) for dip in dips]
    large = [(dip, 90.0) for dip in dips]

    assert own_spread(small) == pytest.approx(1.4826 * 4.0)
    assert own_spread(large) == pytest.approx(1.4826 * 2.0)
    assert own_spread(small[:19]) is None


@given(st.floats(0.0, 40.0), st.floats(3.0, 60.0), st.sampled_from(ChangeTime))
def test_no_length_finds_as_little_as_a_shorter_one(
    spread: float, pace: float, change: ChangeTime
) -> None:
    found = lengths(spread, pace, change)

    points = [each.points for each in found]
    assert points == sorted(set(points), reverse=True)
    assert [each.pairs for each in found] == sorted({each.pairs for each in found})
    assert found[0].pairs == LENGTHS[0]
    for each in found:
        assert each.finds == detectable_difference(each.pairs, spread)
        assert each.repetitions == 2 * each.pairs * BLOCK


def test_what_a_length_finds_is_rounded_up_and_written_in_tenths() -> None:
    found = lengths(5.0, 9.0, ChangeTime.SECONDS)

    assert [each.words.partition(" or more")[0] for each in found] == [
        f"finds {points} points" for points in (7.5, 5, 3.7, 3.2)
    ]
    # 0.70 of 2.9 points is 2.03: to write 2 would promise too much.
    assert Length(12, 120, 2.03, 30.0).words.startswith("finds 2.1 points or more")


def test_a_steady_foot_is_offered_the_shortest_length_alone() -> None:
    found = lengths(1.3, 9.0, ChangeTime.SECONDS)

    assert [each.words for each in found] == [
        "finds 2 points or more; 60 repetitions, about 10 minutes"
    ]


def test_each_length_says_what_it_finds_and_the_screen_what_that_means() -> None:
    found = {time: lengths(5.0, 9.0, time) for time in ChangeTime}
    screen = TrialLength(found, ChangeTime.MINUTE, guessed())

    words = said(screen)

    for length in found[ChangeTime.MINUTE]:
        assert f"finds {length.points:g} points or more" in " ".join(words)
    assert '"Finds": 8 of 10 trials tell such a difference.' in words


def test_the_time_is_that_of_the_repetitions_and_of_the_changes_between_blocks() -> None:
    found = {time: lengths(5.0, 9.0, time)[1] for time in ChangeTime}

    # 80 repetitions of 9 s, 8 changes within the pairs and 3.5 of the 7 between them.
    assert {time: each.minutes for time, each in found.items()} == {
        ChangeTime.SECONDS: pytest.approx(12 + 11.5 / 6),
        ChangeTime.MINUTE: pytest.approx(12 + 11.5),
        ChangeTime.SHOES: pytest.approx(12 + 34.5),
    }
    assert found[ChangeTime.SHOES].words.endswith("80 repetitions, about 46 minutes")


def test_the_changes_expected_are_those_of_drawn_orders() -> None:
    orders = [order(seed, 8) for seed in range(2000)]

    counted = [sum(a is not b for a, b in pairwise(one)) for one in orders]

    assert np.mean(counted) == pytest.approx(changes(8), abs=0.1)


def test_how_long_a_change_takes_is_asked_once_and_stored(trying: Trying) -> None:
    trying.walk(
        *TO_LEVEL,
        ("change time", "A minute"),
        ("trial length", "Back"),
        ("trial length", "Back"),
        ("trial level", "Back"),
        ("set-up", back),
        ("set-up", back),
        ("about trial", "Back"),
    )

    assert len(trying.details_of("change time")) == 1
    assert len(trying.details_of("trial length")) == 2
    assert change_time(trying.history) is ChangeTime.MINUTE


def test_going_back_from_the_change_leads_to_the_level_and_stores_nothing(trying: Trying) -> None:
    trying.walk(
        *TO_LEVEL,
        ("change time", back),
        ("trial level", "Back"),
        ("set-up", back),
        ("set-up", back),
        ("about trial", "Back"),
    )

    assert change_time(trying.history) is None


def test_the_row_of_the_change_changes_the_times_and_what_is_stored(trying: Trying) -> None:
    keep_change_time(trying.history, ChangeTime.MINUTE)
    notes = []

    def takes_longer(screen: Attended) -> None:
        choose(screen, "A change takes")
        notes.append(screen.details()["notes"])
        for action in (Action.PREVIOUS, Action.PREVIOUS, Action.GO):
            screen.on_action(action)

    trying.walk(*TO_LEVEL, ("trial length", takes_longer), ("change over", "Stop for now"))

    [found] = notes
    assert isinstance(found, list)
    # 120 repetitions of 9 s, and 17.5 changes of three minutes.
    assert found[2].endswith("120 repetitions, about 70 minutes")
    assert found[-1] == "three minutes"
    assert change_time(trying.history) is ChangeTime.SHOES
    assert trying.trial.pairs == 12


def test_an_unknown_time_of_a_change_is_asked_again(history: History) -> None:
    history.keep_setting("change_time", ["an hour"])

    assert change_time(history) is None


@pytest.mark.parametrize(
    ("b", "likely"),
    [
        (SetUp("", ball=Ball.TOES), ChangeTime.SECONDS),
        (SetUp("", shoes=Shoes.SOCKS), ChangeTime.SHOES),
        (SetUp("", spacing=Spacing.CLOSER), ChangeTime.SHOES),
        (SetUp("seat"), ChangeTime.SECONDS),
    ],
)
def test_the_likely_time_of_a_change_is_selected_first(b: SetUp, likely: ChangeTime) -> None:
    assert likely_change(SetUp(""), b) is likely
    assert TrialBack.BACK not in ChangeTime
