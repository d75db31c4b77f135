"""Words at the end of a set and in a summary: what it came to, and what to know besides."""

from __future__ import annotations

from drills.capitals import capitalised, uncapitalised
from drills.fault_names import fault_name
from drills.level import Level
from drills.number_words import number_words
from drills.score import Reason
from engine.drill.sense_words import pressure_words
from engine.drill.tally import Missed, Tally
from engine.practice.diagnosis import FaultShare
from engine.practice.retention import Retention

WHY_VOID = {
    Reason.ANTICIPATION: "too early",
    Reason.NO_TARGET: "no target found",
    Reason.GAP: "the computer was busy",
    Reason.UNPLUGGED: "pedals unplugged",
    Reason.FOCUS_LOST: "another window",
    Reason.LEFT: "left before the cue",
    Reason.SELDOM: "too few reports",
    Reason.AT_END: "brake at its end",
    Reason.NOT_MOVED: "brake did not move",
    Reason.STALLED: "pedals stalled",
    Reason.JUMPED: "a pedal jumped",
    Reason.OFF_SIZE: "blip off its size",
    Reason.MISCOUNTED: "miscounted",
    Reason.UNHEARD: "knocks not heard",
}
"""Why repetitions were not judged, in a few words, by their outcome."""
SAVED = "All you did is saved."
"""Sentence where a set or a session is left or waits."""
MOST_SENTENCES = 3
"""Most sentences below the one that matters most at the end of a set, as a count."""


def lead_words(tally: Tally, level: Level) -> str:
    """The one sentence that matters most at the end of a set of `level`."""
    if tally.is_tryout:
        return "With feet this would pass." if tally.passed else "Only feet on pedals count."
    if tally.passed_now:
        return "Passed."
    if tally.shown is not None:
        return retention_words(tally.shown)
    if tally.given_up:
        return "Given up: too many in a row were not judged."
    if not tally.passed:
        if tally.clean_to_pass == 1:
            return "One more clean passes it."
        return f"{number_words(tally.clean_to_pass).capitalize()} more clean in a row pass it."
    if tally.counted >= level.rule.of and tally.clean >= level.rule.clean:
        return "Passed before, and again now."
    return "Passed before: it stays passed."


def more_words(tally: Tally, level: Level) -> str:
    """Sentences below the lead, those that matter most first; empty where there are none."""
    sentences = [
        "Your scores fell over the last twelve: tired?" if tally.tires else "",
        _next_check(tally),
        tally.personal,
        tally.counting,
        guess_words(tally) if level.guess else "",
        pressure_words(tally.sense) if tally.sense is not None else "",
        _best_words(tally, level),
        fault_words(tally.cause, tally.missed, tally.counted, tally.clean),
        void_words(tally.void, tally.why_void),
    ]
    return " ".join([sentence for sentence in sentences if sentence][:MOST_SENTENCES])


def figure_words(tally: Tally, level: Level) -> str:
    """What the large figure of a set counts, such as "of 10 clean, 8 to pass"."""
    words = f"of {tally.counted} clean"
    return f"{words}, {level.rule.clean} to pass" if tally.counted == level.rule.of else words


def missed_words(missed: Missed | None, counted: int, clean: int) -> str:
    """Sentence on the most frequent fault; empty where none, or none more than others, is known."""
    if missed is None:
        return ""
    label = uncapitalised(missed.label)
    if counted - clean == 1:
        return f"Not clean: {label}."
    return f"Most often: {label}, {missed.times} of {counted}." if missed.times > 1 else ""


def cause_words(cause: FaultShare | None, counted: int, clean: int) -> str:
    """Sentence on the fault behind most misses; empty where none is known or it came once."""
    if cause is None:
        return ""
    name = fault_name(cause.fault)
    if counted - clean == 1:
        return f"Not clean: {name}."
    return f"{capitalised(name)} in {cause.times} of {counted}." if cause.times > 1 else ""


def fault_words(cause: FaultShare | None, missed: Missed | None, counted: int, clean: int) -> str:
    """Sentence on what went wrong: the cause where one is known, else the most frequent fault."""
    return cause_words(cause, counted, clean) or missed_words(missed, counted, clean)


def void_words(void: int, why: Reason | None) -> str:
    """Sentence on the void repetitions; `why` is their reason, None for several."""
    if not void:
        return ""
    words = f"{number_words(void).capitalize()} {'was' if void == 1 else 'were'} not judged"
    return f"{words}." if why is None else f"{words}: {WHY_VOID[why]}."


def guess_words(tally: Tally) -> str:
    """Sentence on how far the player's guesses are off; empty without guesses."""
    if tally.guessed_off is None:
        return ""
    words = f"Your guesses are {tally.guessed_off:.1f} points off"
    first = tally.guessed_off_first
    return f"{words}." if first is None else f"{words}, {first:.1f} at first."


def retention_words(retention: Retention) -> str:
    """Sentence on a retention check: whether the level is retained."""
    if retention.missed:
        return "Check-up: not today, it stays passed."
    return f"Check-up: {'well retained' if retention.is_well_retained else 'retained'}."


def next_check_words(days: int) -> str:
    """Sentence on when the next retention check comes, in days from now."""
    return "Next check-up tomorrow." if days == 1 else f"Next check-up in {days} days."


def _next_check(tally: Tally) -> str:
    """Sentence on the next retention check, where the set has moved it; otherwise empty."""
    if tally.is_tryout:
        return ""
    if tally.passed_now:
        return "From tomorrow a check-up shows whether it lasts."
    shown = tally.shown
    if shown is None or shown.due is None or shown.day is None:
        return ""
    return next_check_words((shown.due - shown.day).days)


def _best_words(tally: Tally, level: Level) -> str:
    """Sentence on a best that was beaten in the set, without a number that the figure has."""
    if not tally.is_beaten:
        return ""
    if tally.counted == level.rule.of and tally.best == tally.clean:
        return "Your best on this level so far."
    return f"Your best on this level: {tally.best} clean of {level.rule.of}."
