"""Levels of every manner in five minutes, and what is heard and told of them at the end."""

from dataclasses import replace
from itertools import pairwise

import pytest

from drills.level import Feedback, Level
from engine.drill.saved import guesses_on
from engine.five.flow import five_minutes
from engine.five.saved import sessions_on
from engine.practice.passes import needed
from engine.practice.results import Purpose, Session
from engine.store import History
from tests.engine.five.learning_foot import BY_ID, DATE, LEVELS, Learning, passes
from tests.engine.five.unattended import BAND, FIRST, Minutes, Seen, attend, passed_on, whys
from tests.loudspeaker import Loudspeaker

DUE = BY_ID["blip-1-first"]
MINUTES = 2.0


def alone(history: History, level: Level, minutes: float) -> tuple[Session, list[str]]:
    """A good foot that plays one level alone; what is kept, and the names of the screens."""
    learning, seen = Learning(history, 0.9), list[Seen]()
    learning.setting = replace(learning.setting, levels=[level])
    attend(five_minutes(learning.setting, history, BAND, minutes), learning.clock, (), seen)
    [session] = sessions_on(history, DATE.date())
    return session, [name for name, _ in seen]


def test_a_level_with_a_guess_asks_for_it_until_the_last_three(history: History) -> None:
    guessed = replace(BY_ID["quiet-guess"], needs=())

    session, names = alone(history, guessed, 0.7)

    learned = whys(session).count(Purpose.LEARN)
    assert learned >= 3
    assert names.count("guess") == len(guesses_on(history, guessed.id)) == learned
    assert names[-4:] == ["repetition"] * 3 + ["day end"]


def test_a_level_of_summaries_sums_up_in_five_minutes_too(history: History) -> None:
    minutes = Minutes(history, levels=[replace(FIRST, feedback=Feedback.SUMMARY, summary=4)])

    minutes.play()

    learned = whys(minutes.session).count(Purpose.LEARN)
    assert learned >= 8
    assert minutes.names.count("summary") == learned // 4
    assert "reveal" not in minutes.names


def test_a_mixed_level_draws_another_kind_each_time_and_is_stored_as_itself(
    history: History,
) -> None:
    mixed = BY_ID["mix-1-any"]
    pool = [replace(one, guess=False) for one in needed(mixed, LEVELS)]
    passes(history, *pool)
    learning = Learning(history, 0.9)
    learning.setting = replace(learning.setting, levels=[*pool, mixed])

    attend(five_minutes(learning.setting, history, BAND, 2.0), learning.clock)

    records = [one for _, one in learning.audience.records]
    drawn = [one for one in records if one.drawn]
    assert len(drawn) >= 3
    assert {one.level for one in drawn} == {mixed.id}
    assert {one.drawn for one in drawn} <= {one.id for one in pool}
    assert all(after.kind != before.kind for before, after in pairwise(records) if after.drawn)


@pytest.mark.parametrize(
    ("before", "off", "heard"),
    [(None, 0.0, "passed"), (60.0, 0.0, "best"), (60.0, 8.0, "day done")],
)
def test_what_was_passed_or_beaten_is_heard_at_the_end_of_the_day_or_else_its_end(
    history: History, before: float | None, off: float, heard: str
) -> None:
    if before is not None:
        passed_on(history, FIRST, 0, score=before)
    minutes = Minutes(history, lambda _: off, levels=[FIRST])

    minutes.play()

    speaker = minutes.setting.stage.speaker
    assert isinstance(speaker, Loudspeaker)
    assert [one for one in speaker.heard if one in ("passed", "best", "day done")] == [heard]


def test_a_best_score_is_named_though_its_level_also_came_for_another_purpose(
    history: History,
) -> None:
    passed_on(history, FIRST, 0, score=60.0)
    minutes = Minutes(history, levels=[FIRST])

    minutes.play()

    [day] = minutes.details_of("day end")
    assert {Purpose.MIX, Purpose.DARK} <= set(whys(minutes.session))
    assert "Best score yet: 99 at First." in day["beaten"]  # type: ignore[operator]
