"""Words at the end of a day's session."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from engine.drill.cost_words import likely_words, size_words
from engine.five.plan_words import check_words
from engine.five.steadiness_words import waiting_words
from engine.five.streak_words import rest_words
from engine.kit.steadiness_view import SteadinessView
from engine.practice.counting_cost import LEAST, CostOverTime
from engine.practice.results import Streaks

NOTHING = "Nothing was played, and nothing is lost."
"""Sentence on the end screen of a session in which nothing was played."""
NOTHING_NEW = "Nothing new passed or retained."
"""Sentence for a whole session in which no level was passed or retained and no best beaten."""
ONE_MORE = "One more layer on your hill."
"""Sentence about a whole session in which nothing went better than ever."""
FIRST_LAYER = "The first layer of your hill."
"""Sentence about such a session on the first day of practice."""
MORE_CLEAN = "More clean in a row than ever."
"""Sentence about the longest row of clean repetitions."""
MORE_DAYS = "More days in a row than ever."
"""Sentence about the longest row of days practised."""
FIGURES = "All figures"
"""Choice that shows all figures of the day."""
PICTURE = "Picture"
"""Choice that shows the one picture of the day again."""
MOST_NAMED = 2
"""Most levels that the one sentence about a day names, as a count."""
MOST_AIMS = 3
"""Most purposes that the sentence on what a session was for names, as a count."""
WEEK_AGO = range(5, 11)
"""Days ago of a steadiness that may stand beside the newest one, the closest to a week taken."""


@dataclass(frozen=True)
class Line:
    """What matters in a few words, and a quiet line below it."""

    words: str
    """A few words with a number, such as "5 days in a row"."""
    note: str = ""
    """A few quiet words below; empty for none."""


REST_WAITS = Line("The rest waits here", "all day")
"""Where a session goes on that was left before its end."""
PAST_MIDNIGHT = Line("Past midnight", "five minutes are ready")
"""When to practise after a session that began the day before: home offers the next at once."""


def next_visit_line(checked: int, due: int, *, is_early: bool, past_midnight: bool) -> Line:
    """When to practise next; `checked` of `due` levels are checked for retention tomorrow."""
    if past_midnight:
        return PAST_MIDNIGHT
    if is_early:
        return REST_WAITS
    return Line("Tomorrow", check_words(checked, due)) if due else Line("Go on tomorrow")


def named_words(word: str, titles: Sequence[str]) -> str:
    """Sentence that names the levels passed or retained, or the first where they are many."""
    if len(titles) > MOST_NAMED:
        return f"{word}: {titles[0]}, and {len(titles) - 1} more."
    return f"{word}: {', '.join(titles)}."


def new_limit_words(title: str) -> str:
    """Sentence about a new best of a personal limit of a level."""
    return f"New best personal limit: {title}."


def best_words(title: str) -> str:
    """Sentence about a new best score at a level."""
    return f"Your best score at {title}."


def steadier_words(since: str) -> str:
    """Sentence about a step of steadiness; `since` is the day of the first one."""
    return f"Steadier than on {since}."


def rest_line(visit: Line, *, is_done: bool) -> str:
    """Last line of the day: rest, if the day is done, and when the next visit is to be."""
    between = " " if visit == REST_WAITS else ": "
    again = between.join(filter(None, (visit.words, visit.note)))
    return f"Rest now. {again}." if is_done else f"{again}."


def aims_words(aims: Sequence[tuple[int, str]]) -> str:
    """Sentence on what repetitions were for, such as "10 for the early roll, 6 new".

    `aims` are repetitions, as a count, with what they were for; the largest counts are told. Empty
    where there are none.
    """
    most = sorted(aims, key=lambda aim: -aim[0])[:MOST_AIMS]
    words = ", ".join(f"{count} {aim}" for count, aim in most if count)
    return f"{words}." if words else ""


def still_words(there: int, checked: int) -> str:
    """Sentence on the levels that were still there after a long rest, of those checked."""
    return f"{there} of {checked} still there."


def news_words(passed: Sequence[str], retained: Sequence[str], beaten: Sequence[str]) -> list[str]:
    """Sentences about what went better, the greatest first."""
    lists = [("Passed", passed), ("Retained", retained)]
    titles = [f"{word}: {', '.join(names)}." for word, names in lists if names]
    return [*titles, *beaten]


def longest_row_words(row: int) -> str:
    """Sentence on a row of clean repetitions that is longer than any before."""
    return f"{row} clean in a row, your best yet."


def steadiness_line(view: SteadinessView | None, blips: int | None) -> Line | None:
    """The steadiness and that of about a week ago, or how many blips it waits for."""
    if view is None:
        return None if blips is None else Line("Steadiness: not yet", waiting_words(blips))
    earlier = [(ago, value) for ago, value in view.days if ago in WEEK_AGO]
    note = f"points, your last {view.span} days" if view.days else "points, when last measured"
    if earlier:
        ago, value = min(earlier, key=lambda day: abs(day[0] - 7))
        note = f"±{value:.1f} {'a week' if ago == 7 else f'{ago} days'} ago"
    return Line(f"Steadiness ±{view.value:.1f}", note)


def cost_line(cost: CostOverTime) -> Line:
    """What counting costs, how surely, or how many pairs it waits for."""
    if cost.now is None:
        return Line("Counting: too early", f"{cost.pairs} of {LEAST} pairs")
    likely = likely_words(cost.now.dip)
    if not likely:
        return Line("No cost of counting found", f"{cost.now.dip.found:.1f} points would show")
    verb = "saves" if cost.now.dip.value < 0 else "costs"
    return Line(f"Counting {verb} {size_words(cost.now.dip)}", f"points, {likely}")


def days_line(streaks: Streaks, *, is_longest: bool) -> Line | None:
    """Days practised in a row, where there are any."""
    days = streaks.days_streak
    if not days:
        return None
    best = streaks.best_days_streak
    note = "your longest" if is_longest else rest_words(streaks)
    if not note and best > days:
        note = f"best {best}"
    return Line("1 day in a row" if days == 1 else f"{days} days in a row", note)
