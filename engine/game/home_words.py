"""Words of home: the sentence beside the steadiness, the streaks, and what is new to a player."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import date

from drills.capitals import capitalised
from drills.fault_names import fault_name
from engine.date_words import dated_words
from engine.five.steadiness_words import INSIDE
from engine.five.streak_words import PASSED_STAYS, lost_words, rest_words
from engine.practice.focus import Focus
from engine.practice.results import Streaks
from engine.practice.steadiness import WINDOW

MEANING = f"Steadiness: {INSIDE}."
"""What the large figure of home is."""
BEFORE_REST = "Steadiness when last measured: three blips in four stayed inside."
"""What the large figure of home is after weeks without a blip that counts for it."""
TRY_OUT = "With pedals, your steadiness stands here."
"""What stands in place of the steadiness while the player has no feet on pedals."""
EVERY_LEVEL = "Here you may try every level."
"""What a player may do without feet on pedals."""
PLACING_OFFER = "Can you blip already? Practise offers Find my place."
"""What home says to a player who has passed nothing yet."""
WARM_UP_COUNTS = "Today's warm-up: does it go by itself?"
"""What home says where today's warm-up is a session of counting."""
NO_REST_DAY = "No rest day left"
"""What stands beside the fault worked on where a streak of days ends today."""
IN_TRIAL = "trial by days"
"""Note of Five minutes while a trial by days is under way."""


def waiting_words(blips: int) -> str:
    """When the first steadiness comes, and how many of its blips there are."""
    return f"Steadiness: after {WINDOW} blips, {blips} so far"


def day_words(day: date, today: date) -> str:
    """A day as a label: "2 May", with its year if that is not this one, or "today"."""
    return "today" if day == today else dated_words(day, today)


def plan_line(five: str) -> Iterator[str]:
    """Line about what Five minutes plays, the fullest first: all parts, two of them, or the first.

    The two are the first and what the session comes to in the end.
    """
    words = capitalised(five)
    first = words.partition(",")[0]
    _, then, last = words.rpartition(", then ")
    yield words
    if then:
        yield f"{first}{then}{last}"
    yield first


def first_line(
    streaks: Streaks, focus: Focus | None, *, placing: bool, warm_up_counts: bool = False
) -> Iterator[str]:
    """Line about what matters most today, the fullest wording first.

    The offer to find a place comes first, then a streak of days that has just ended, then a warm-up
    that is a session of counting (`warm_up_counts`), where no streak ends today, then the fault
    worked on, and last the days in a row. Where a streak ends today, the line on the fault says so
    too: one who rests every Sunday has no rest day left on any other morning.
    """
    ends = streaks.days_streak > 0 and not streaks.rest_left and not streaks.practised
    just_lost = streaks.lost is not None and streaks.days_streak == 0
    if placing:
        yield PLACING_OFFER
    elif warm_up_counts and not just_lost and not ends:
        yield WARM_UP_COUNTS
    elif focus is not None and not just_lost:
        if ends:
            yield from (f"{words}. {NO_REST_DAY}" for words in focus_line(focus))
        yield from focus_line(focus)
    else:
        yield from days_line(streaks)


def focus_line(focus: Focus) -> Iterator[str]:
    """Line about the fault worked on: its share now, and as it was told where that differs."""
    was, now = focus.was, focus.now
    words = f"Working on: {fault_name(focus.fault)}"
    counted = f"{words}, {now.times} of {now.of}"
    if (now.times, now.of) != (was.times, was.of):
        yield f"{counted}, was {was.times}" + ("" if was.of == now.of else f" of {was.of}")
    yield counted
    yield words


def days_note(streaks: Streaks) -> str:
    """Streak of days as the note of Five minutes; empty for less than two days."""
    return f"{streaks.days_streak} days in a row" if streaks.days_streak > 1 else ""


def days_line(streaks: Streaks) -> Iterator[str]:
    """Line about days, the fullest first: the last streak lost, or the best and the rest day."""
    best = streaks.best_days_streak
    if streaks.lost is not None:
        lost = f"{lost_words(streaks.lost)} {PASSED_STAYS}"
        if best > streaks.lost.days:
            yield f"{lost} Best {best}."
        yield lost
        yield PASSED_STAYS
        return
    rest = rest_words(streaks)
    is_best = best == streaks.days_streak
    told = "Your most days in a row" if is_best else f"Best {best} days in a row"
    yield ", ".join(filter(None, [told if best > 1 else "", rest]))
    yield rest[:1].upper() + rest[1:]


def clean_line(streaks: Streaks) -> Iterator[str]:
    """Line about clean repetitions, the fullest first: those in a row, the best, and today's."""
    row, best = streaks.clean_streak, streaks.best_clean_streak
    most = f", best {best}" if best > row else ", your best" if best == row > 1 else ""
    in_a_row = f"{row} clean in a row{most}" if row > 1 else ""
    if row < 2 <= best:
        in_a_row = f"Best {best} clean in a row"
    today = f"{streaks.clean_today} of {streaks.today} clean today" if streaks.today else ""
    yield ". ".join(filter(None, [in_a_row, today]))
    yield in_a_row
    yield today
