"""Whether a foot is getting better: told as sure only where a step is, and worse told plainly."""

from dataclasses import replace
from datetime import UTC, date, datetime, timedelta

import pytest
from hypothesis import given
from hypothesis import strategies as st

from engine.kit.steadiness_view import SteadinessView
from engine.practice.changes import Change, Changed
from engine.practice.remeasuring import Remeasuring
from engine.practice.steadiness import Steadiness, SteadinessStep
from engine.progress.page_words import PageWords
from engine.progress.progress import Progress
from engine.progress.steadiness_words import steadiness_words

TODAY = date(2024, 5, 17)
FIRST = date(2024, 5, 2)


def steadiness(value: float, last: date) -> Steadiness:
    """A steadiness with an interval about it."""
    return Steadiness(value, value - 1.0, value + 1.3, 6, last)


def step(first: float, now: float) -> SteadinessStep:
    """A step from one value to another."""
    return SteadinessStep(steadiness(first, FIRST), steadiness(now, TODAY))


def shown(now: float | None, blips: int, step: SteadinessStep | None = None) -> Progress:
    """Progress with this steadiness, after so many blips."""
    view = None if now is None else SteadinessView(now, now - 1.0, now + 1.3, 6)
    days = ((FIRST, 40), (TODAY, 40))
    return Progress(TODAY, steadiness=view, steadiness_step=step, steadiness_blips=blips, days=days)


def test_a_foot_that_got_better_is_told_so_with_both_values_and_their_days() -> None:
    assert steadiness_words(shown(5.8, 300, step(9.2, 5.8))) == PageWords(
        "Yes: ±9.2 on 2 May, ±5.8 now.",
        "Three blips in four stay inside. Likely 4.8 to 7.1 points.",
        (
            "36 blips of 60 % count, from your last 6 days.",
            "On 2 May likely 8.2 to 10.5 points.",
            "A change is told when three groups of 36 blips agree.",
        ),
    )


@pytest.mark.parametrize(
    ("now", "blips", "lead"),
    [
        (None, 0, "Not sure yet: 0 of 36 blips."),
        (None, 35, "Not sure yet: 35 of 36 blips."),
        (5.8, 36, "Not sure yet: ±5.8 now, 36 of 108 blips."),
        (5.8, 107, "Not sure yet: ±5.8 now, 107 of 108 blips."),
        (5.8, 108, "No clear change: ±5.8 now."),
    ],
)
def test_without_a_step_nothing_is_called_better(now: float | None, blips: int, lead: str) -> None:
    assert steadiness_words(shown(now, blips)).lead == lead


def test_a_foot_that_got_worse_is_told_so() -> None:
    said = steadiness_words(shown(9.2, 300, step(5.8, 9.2)))

    assert said.lead == "No: ±5.8 on 2 May, ±9.2 now."
    assert said.line.startswith("Three blips in four stay inside.")


@pytest.mark.parametrize(
    ("what", "ago", "line"),
    [
        (Changed.POSITION, 2, "Being worse is excused until 5 Jun: new foot position."),
        (Changed.OTHER, 20, "Being worse is excused until 18 May: a change."),
        (Changed.SHOES, 21, "Three blips in four stay inside. Likely 8.2 to 10.5 points."),
        (Changed.SET_UP, 2, "Three blips in four stay inside. Likely 8.2 to 10.5 points."),
    ],
)
def test_what_excuses_being_worse_is_said_beside_it(what: Changed, ago: int, line: str) -> None:
    at = datetime(2024, 5, 17, 20, tzinfo=UTC) - timedelta(days=ago)
    worse = replace(shown(9.2, 300, step(5.8, 9.2)), changes=(Change(at, what, 40),))

    said = steadiness_words(worse)

    assert said.line == line
    assert "Three blips in four stay inside." in " ".join(said.sentences)


def test_a_foot_that_got_better_needs_no_excuse() -> None:
    change = Change(datetime(2024, 5, 16, 20, tzinfo=UTC), Changed.SHOES, 40)

    said = steadiness_words(replace(shown(5.8, 300, step(9.2, 5.8)), changes=(change,)))

    assert "excused" not in " ".join(said.sentences)


def test_while_the_history_is_remeasured_nothing_is_said() -> None:
    assert steadiness_words(replace(shown(None, 0), remeasuring=Remeasuring(1, 9))) == PageWords()


@given(first=st.floats(0.5, 50), now=st.floats(0.5, 50), is_told=st.booleans())
def test_yes_is_said_only_of_a_step_to_less_and_no_only_of_one_to_more(
    first: float, now: float, is_told: bool
) -> None:
    lead = steadiness_words(shown(now, 300, step(first, now) if is_told else None)).lead

    assert lead.startswith("Yes") == (is_told and now <= first)
    assert lead.startswith("No:") == (is_told and now > first)
    assert lead.startswith("No clear change") == (not is_told)
