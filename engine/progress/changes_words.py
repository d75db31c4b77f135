"""Words for changes that the player marked: over charts, in a line, and what each brought."""

from __future__ import annotations

from datetime import date

from drills.capitals import capitalised
from drills.measures.catalogue import CATALOGUE
from engine.date_words import dated_words, day_words
from engine.practice.before_after import FEWEST, BeforeAfter
from engine.practice.changes import Change, Changed
from engine.progress.changes_brought import Brought, Told
from engine.progress.progress import Progress

NOTE_ON_CHART = 24
"""Most characters of a note over a chart."""
TAKEN_OUT = "Progress from practice alone is taken out."
"""Sentence on how the dips before and with a change are compared."""
DIP = CATALOGUE["dip"]
"""The measure that a change is compared by."""


def change_name(change: Change) -> str:
    """What changed, with the player's note if there is one."""
    if change.what is Changed.OTHER:
        return change.note or "a change"
    return f"{change.what.value}: {change.note}" if change.note else change.what.value


def name_on_chart(change: Change) -> str:
    """What changed, with the beginning of the player's note, to stand over a chart."""
    name, most = change_name(change), NOTE_ON_CHART
    if change.what is not Changed.OTHER:
        most += len(f"{change.what.value}: ")
    return name if len(name) <= most else f"{name[:most].rstrip()}…"


def change_lines(progress: Progress) -> list[str]:
    """A line for each of the newest changes that the player marked, newest first."""
    return [change_line(one, progress.today) for one in reversed(progress.brought)]


def change_line(one: Brought, today: date) -> str:
    """What changed and when, and what it brought."""
    name = change_name(one.change)
    day = dated_words(one.change.at.date(), today)
    return f"{capitalised(name)}, {day}. {_brought(one)}"


def newest_change(progress: Progress) -> list[str]:
    """Line on the newest change of which it can be said what it brought, if there is one."""
    compared = [one for one in progress.brought if one.told is not Told.TOO_FEW]
    return [change_line(one, progress.today) for one in compared[-1:]]


def changes_explained(progress: Progress) -> list[str]:
    """Lines on changes, and how their dips are compared if any are."""
    compared = any(one.told is not Told.TOO_FEW for one in progress.brought)
    return [*change_lines(progress), *([TAKEN_OUT] if compared else [])]


def change_on_day(change: Change) -> str:
    """What changed and on which day, over a chart."""
    return f"{name_on_chart(change)}, {day_words(change.at.date())}"


def _brought(one: Brought) -> str:
    if one.dips is None or one.at_one_size is None or one.unsure is None:
        return _not_compared(one)
    values = f"{DIP.label} {one.dips.before:.1f} before, {one.dips.after:.1f} after"
    match one.told:
        case Told.BETTER | Told.WORSE:
            return f"{values}: likely {_interval(one.dips)}."
        case Told.BLIPS_DIFFER if one.blips is not None:
            before, after = one.blips
            return f"{values}. Cannot tell: blips were {before:.0f} %, then {after:.0f} %."
        case Told.BLIPS_DIFFER:
            return f"{values}. Cannot tell: the blips differed."
        case _:
            still = " still" if one.is_open else ""
            return f"{values}. That may{still} be luck: {_interval(one.unsure)}."


def _not_compared(one: Brought) -> str:
    """Why a change is not compared with the days before it, or from when on it is."""
    if not one.is_open:
        return "Too few days of blips before or after to compare."
    if not one.enough_before:
        return "Too few days of blips before it to compare."
    if one.is_early:
        day = day_words(one.compared_from)
        if one.days < FEWEST:
            return f"{one.days} of {FEWEST} days with it, compared from {day} on."
        return f"{one.days} days with it, compared from {day} on."
    if one.days < FEWEST:
        return f"{one.days} of {FEWEST} days with it so far."
    return "No level of blips was played both before and after."


def _interval(dips: BeforeAfter) -> str:
    """Interval of what a change brought, in words such as "0.4 to 3.6 better"."""
    low, high = dips.better
    if low >= 0:
        return f"{low:.1f} to {high:.1f} better"
    if high <= 0:
        return f"{-high:.1f} to {-low:.1f} worse"
    return f"{-low:.1f} worse to {high:.1f} better"
