"""Words of a trial by days: what it can find, and its outcome as sentences and a table."""

from __future__ import annotations

from math import ceil, floor

from engine.practice.blip_size import BLIP
from engine.trial.by_days_outcome import Compared, DaysOutcome
from engine.trial.by_days_power import FEWEST_DAYS, Power
from engine.trial.outcome import Finding
from engine.trial.trial import Arm
from engine.trial.words import MOST_DECIMALS, NO, WrittenDifference, luck_words

SCALED = f"Scaled to {BLIP:.0f} %, points"
"""Label of the deviations as they would be at blips of one size."""
RAW = "As played, points"
"""Label of the deviations as they were."""
PEAK = "Throttle, %"
"""Label of the throttle peaks of the blips."""
POINTS_DIGITS, PEAK_DIGITS = 1, 0
"""Fewest decimals of deviations in points, and of throttle peaks in %."""


def power_words(power: Power) -> tuple[str, str]:
    """What a trial by days can find, and what that is known from, a sentence each."""
    if power.points is None:
        finds = f"8 of 10 such trials find one that is steadier by {100 * power.share:.0f} %."
    else:
        now = f"your blips are {power.typical:.1f} off now"
        finds = f"8 of 10 such trials find {power.points:.1f} points; {now}."
    if power.is_guess:
        return finds, f"That is a guess until it knows {FEWEST_DAYS} of your days."
    return finds, "That is by how much your own days differ."


def days_finding_words(outcome: DaysOutcome) -> str:
    """Finding of a trial by days in a few words, for the list of past trials."""
    finding = outcome.finding.value
    return finding if outcome.steadier is None else f"{outcome.steadier} is {finding}"


def days_outcome_words(outcome: DaysOutcome, a_name: str, b_name: str) -> tuple[str, ...]:
    """Outcome of a trial by days: a heading, and at most three lines under it.

    `a_name` and `b_name` are those of the two set-ups.
    """
    set_ups = {Arm.A: a_name, Arm.B: b_name}
    names = {arm: f"{arm} ({name})" if name else f"{arm}" for arm, name in set_ups.items()}
    lines = (_heading(outcome, names), _explanation(outcome), _blips(outcome), _warning(outcome))
    return tuple(line for line in lines if line)


def days_table(outcome: DaysOutcome) -> tuple[tuple[str, ...], ...]:
    """Rows of the table of a trial by days, a cell for each heading of `words.HEADINGS`."""
    figures = ((SCALED, outcome.scaled), (RAW, outcome.raw), (PEAK, outcome.peak))
    return tuple(_row(label, figure) for label, figure in figures)


def written_figure(label: str, figure: Compared | None) -> WrittenDifference:
    """Comparison of one figure as text; B less A as written is the difference as written."""
    if figure is None:
        return WrittenDifference(label, NO, NO, NO, NO, NO)
    digits = _decimals(figure, PEAK_DIGITS if label == PEAK else POINTS_DIGITS)
    value = round(figure.value, digits)
    unit = 10.0**-digits
    a = floor((figure.a + figure.b - value) / 2 / unit + 0.5) * unit
    return WrittenDifference(
        label,
        f"{a:.{digits}f}",
        f"{a + value:.{digits}f}",
        _signed(value, digits),
        f"{_signed(figure.low, digits)} to {_signed(figure.high, digits)}",
        f"{ceil(100 * figure.p) / 100:.2f}",
    )


def _row(label: str, figure: Compared | None) -> tuple[str, ...]:
    row = written_figure(label, figure)
    return (
        row.label,
        row.a,
        row.b,
        row.value,
        row.interval,
        luck_words(None if figure is None else figure.p),
    )


def _heading(outcome: DaysOutcome, names: dict[Arm, str]) -> str:
    figure = outcome.scaled
    if figure is None:
        return "Cannot tell: no blip was measured"
    for arm, count in zip(Arm, outcome.counts, strict=True):
        if not count.is_telling:
            done = count.counted - count.left - count.failed
            return (
                f"Cannot tell: only {done} of {count.counted} were done as asked with {names[arm]}"
            )
    if outcome.finding is Finding.NO_DIFFERENCE:
        most = ceil(max(abs(figure.low), abs(figure.high), 1))
        return f"No difference you would notice: at most {_points(most, 0)} either way"
    if outcome.steadier is None:
        if outcome.hangs_on_size:
            return "Cannot tell: the blips differed"
        return "Cannot tell: there may be no difference, or one you would notice"
    digits = _decimals(figure, POINTS_DIGITS)
    points = _points(abs(figure.value), digits)
    low, high = (f"{end:.{digits}f}" for end in sorted((abs(figure.low), abs(figure.high))))
    return f"{names[outcome.steadier]} is steadier by {points} ({low} to {high})"


def _explanation(outcome: DaysOutcome) -> str:
    """Line under the heading of a trial by days; empty if the heading says it all."""
    figure = outcome.scaled
    if figure is None:
        return ""
    if not all(count.is_telling for count in outcome.counts):
        return "What was not done is taken to be as bad as the worst."
    if outcome.finding is Finding.NO_DIFFERENCE:
        if figure.less is None:
            return "Take the one you find easier."
        return f"What little there is favours {figure.less}."
    if outcome.steadier is not None:
        return f"By blips scaled to {BLIP:.0f} %, over {outcome.pairs} pairs of days."
    if outcome.hangs_on_size:
        return "Scaled and as played, the figures say different things."
    most = {Arm.A: figure.high, Arm.B: -figure.low}
    by = [f"{arm} by up to {_points(end, 1)}" for arm, end in most.items() if end > 0]
    return f"Steadier may be {', or '.join(by)}."


def _blips(outcome: DaysOutcome) -> str:
    """Line that names the blips of both set-ups, if they differ; else empty."""
    if not outcome.blips_differ:
        return ""
    row = written_figure(PEAK, outcome.peak)
    return f"The blips differed: {row.a} % throttle with A, {row.b} % with B."


def _warning(outcome: DaysOutcome) -> str:
    if not outcome.recalibrated:
        return ""
    return "The pedals were set up anew between days: part of this may be that."


def _decimals(figure: Compared, fewest: int) -> int:
    """Fewest decimals with which no end of an interval clear of 0 is rounded to 0."""
    if figure.low <= 0 <= figure.high:
        return fewest
    nearest = min(abs(figure.low), abs(figure.high))
    candidates = range(fewest, MOST_DECIMALS)
    return next((digits for digits in candidates if round(nearest, digits)), MOST_DECIMALS)


def _points(value: float, digits: int) -> str:
    words = f"{value:.{digits}f}"
    return f"{words} point" if words == "1" else f"{words} points"


def _signed(value: float, digits: int) -> str:
    return f"{value:+.{digits}f}" if round(value, digits) else f"{0:.{digits}f}"
