"""A whole trial over three days: what is asked, heard, shown and stored."""

from collections.abc import Iterator
from datetime import timedelta

import numpy as np
import pytest

from engine.five.forecast import forecast_words
from engine.practice.results import Purpose
from engine.store import ledger, open_history
from engine.store.courses import courses_of
from engine.store.repetitions import recent_results
from engine.store.retention import all_retention
from engine.trial.outcome import outcome
from engine.trial.randomisation import order
from engine.trial.result import curves_of
from engine.trial.trial import Arm, Ball, SetUp, with_names
from engine.trial.words import outcome_words
from tests.engine.five.learning_foot import passes
from tests.engine.trial.two_positions import BAND, BY_ID, EVENING, LEVELS, ON, TODAY, Trying, toes
from tests.loudspeaker import Loudspeaker

EASIER = LEVELS[: [level.id for level in LEVELS].index("blip-3-good")]
BEFORE_THE_END = {
    *("about trial", "set-up", "trial level", "trial length", "change over", "repetition"),
    *("change time", "trial under way"),
}


@pytest.fixture(scope="module")
def story(tmp_path_factory: pytest.TempPathFactory) -> Iterator[Trying]:
    """A trial of six pairs on three days, the first day stopped in the third pair."""
    with open_history(tmp_path_factory.mktemp("data"), []) as history:
        passes(history, *EASIER)
        trying = Trying(history)
        begun = ("set-up", "Go on"), ("set-up", toes)
        trying.walk(*begun, *[ON] * 5, ("change over", "Stop for now"))
        trying.next_day()
        trying.walk(*[ON] * 5, TODAY)
        trying.next_day()
        trying.walk(("trial result", "Done"))
        yield trying


def test_both_blocks_of_a_pair_ask_the_same_of_the_foot(story: Trying) -> None:
    asked: dict[int, list[tuple[float, int]]] = {}
    for _, record in story.audience.records:
        assert record.block is not None
        assert record.dark is not None
        asked.setdefault(record.block, []).append((record.target, record.cues[0] - record.dark))

    pairs = [(asked[block], asked[block + 1]) for block in range(0, 12, 2)]

    assert [len(block) for pair in pairs for block in pair] == [5] * 12
    for one, other in pairs:
        assert [target for target, _ in one] == [target for target, _ in other]
        # Readings come every 10 ms, so a wait is that much longer or shorter.
        assert [wait for _, wait in one] == pytest.approx([wait for _, wait in other], abs=21e6)
    assert len({wait // 100_000_000 for one, _ in pairs for _, wait in one}) > 5


def test_the_result_is_the_outcome_of_the_stored_repetitions(story: Trying) -> None:
    [said] = story.details_of("trial result")
    made = outcome(story.trial)

    assert said["said"] == outcome_words(made)
    assert made.steadier is Arm.B
    assert made.dip.value == pytest.approx(-6.0, abs=1.5)
    assert said["counts"] == (("Counted", "30", "30"),)


def test_each_set_up_has_the_curves_of_its_own_repetitions(story: Trying) -> None:
    curves = curves_of(story.trial, story.history)

    assert [(one.name, len(one.pictures)) for one in curves] == [
        ("ball of the foot", 30),
        ("toes", 30),
    ]
    deepest = [np.mean([one.deviation.min() for one in arm.pictures]) for arm in curves]
    assert deepest[1] - deepest[0] == pytest.approx(6.0, abs=1.5)


def test_no_screen_before_the_result_shows_a_score(story: Trying) -> None:
    until = story.names.index("trial result")

    assert set(story.names[:until]) == BEFORE_THE_END
    assert story.names[until:] == ["trial result"]


def test_nothing_but_the_target_and_the_cue_is_heard(story: Trying) -> None:
    assert isinstance(story.setting.stage.speaker, Loudspeaker)

    heard = {one.partition(" ")[0] for one in story.setting.stage.speaker.heard}

    assert heard == {"tone", "click"}


def test_the_arms_come_in_the_drawn_order_and_each_day_continues_where_it_stopped(
    story: Trying,
) -> None:
    over = story.details_of("change over")
    lots = [arm.value for arm in order(story.trial.seed, 6)]

    assert [(one["block"], one["arm"]) for one in over] == [
        (block, lots[block - 1]) for block in (1, 2, 3, 4, 5, 6, 6, 7, 8, 9, 10, 11, 11, 12)
    ]
    assert [one["far"] for one in story.details_of("trial under way")] == [
        "2 of 6 pairs are done",
        "5 of 6 pairs are done",
    ]


def test_every_repetition_is_stored_with_the_trial(story: Trying) -> None:
    tried = story.trial.repetitions
    records = [record for _, record in story.audience.records]

    assert story.trial.over
    assert [one.block for one in tried] == [number // 5 for number in range(60)]
    assert sorted({one.day for one in tried}) == [
        EVENING.date() + timedelta(days=number) for number in range(3)
    ]
    assert {record.why for record in records} == {Purpose.TRIAL}
    assert all(record.trial == story.trial.number for record in records)


def test_the_trial_enters_nothing_but_the_streak_of_days(story: Trying) -> None:
    history, today = story.history, story.now().date()

    streaks = ledger.streaks(history, today)

    assert (streaks.days_streak, streaks.best_days_streak) == (3, 3)
    assert (streaks.today, streaks.clean_today, streaks.clean_streak) == (0, 0, 0)
    assert streaks.best_clean_streak == 0
    assert recent_results(history, 300) == []
    assert all_retention(history) == {}
    assert len(courses_of(history, {"blip": "dip"})["blip"]) == 0


def test_five_minutes_after_a_trial_are_those_of_a_player_without_one(
    story: Trying, tmp_path_factory: pytest.TempPathFactory
) -> None:
    with open_history(tmp_path_factory.mktemp("other"), []) as other:
        passes(other, *EASIER)
        without = Trying(other)

        told = [forecast_words(one.setting, one.history, BAND) for one in (story, without)]

    assert told[0] == told[1]


def test_what_differs_names_the_two_set_ups(story: Trying) -> None:
    assert (story.trial.a, story.trial.b) == with_names(SetUp(""), SetUp("", ball=Ball.TOES))
    assert (story.trial.a.name, story.trial.b.name) == ("ball of the foot", "toes")
    assert story.trial.level == "blip-3-good"
    assert BY_ID["blip-3-good"].kind.name == "blip"
