"""What a trial ends with, in words and figures that agree with each other.

Every figure of a measure has the same decimals: those of the catalogue, or as many more as it
takes to keep the interval clear of 0 where it is. B less A of what is written is the difference
that is written, so one of the two may be off by three quarters of its last digit.
"""

from __future__ import annotations

from dataclasses import dataclass
from math import ceil, floor

from drills.measures.catalogue import CATALOGUE
from engine.trial.outcome import Difference, Finding, Outcome
from engine.trial.sign_flip import LEVEL
from engine.trial.trial import FEWEST_PAIRS, Arm

MOST_DECIMALS = 6
"""count, when to give up: no pedal tells as little."""
NO = "-"
"""What is written for what there is none of."""
PHRASES = {"rebound": "coming back over", "settle": "settling"}
"""How the two measures beside the dip are spoken of."""
SAME = ("says the same", "say the same")
"""What one of them says, and what both do."""
OPPOSITE = ("says the opposite", "say the opposite")
NOTHING = ("does not tell them apart", "do not tell them apart")


@dataclass(frozen=True)
class Written:
    """One measure in both arms, for a person: a dash where there is none."""

    label: str
    """Name of the measure, with its unit."""
    a: str
    """Mean of the medians of A's blocks."""
    b: str
    """The same of B's."""
    value: str
    """B less A, with its sign."""
    interval: str
    """Its interval of 95 %, such as -7 to -1."""
    p: str
    """Two-sided p, rounded up, so that 0.05 is 0.05 at most."""


def written(one: Difference) -> Written:
    """A row of the table of an outcome."""
    measure = CATALOGUE[one.measure]
    label = f"{measure.label}, {measure.unit}"
    if one.a is None or one.b is None:
        return Written(label, NO, NO, NO, NO, NO)
    digits = _decimals(one)
    difference = round(one.b - one.a if one.value is None else one.value, digits)
    a = _nearest((one.a + one.b - difference) / 2, digits)
    levels = [f"{level:.{digits}f}" for level in (a, a + difference)]
    if one.value is None or one.low is None or one.high is None or one.p is None:
        return Written(label, levels[0], levels[1], NO, NO, NO)
    value, low, high = (_signed(end, digits) for end in (one.value, one.low, one.high))
    return Written(label, levels[0], levels[1], value, f"{low} to {high}", _chance(one.p))


def outcome_words(outcome: Outcome, a_name: str, b_name: str) -> tuple[str, ...]:
    """A heading, and at most two lines under it. The names are those of the two set-ups."""
    named = {Arm.A: a_name, Arm.B: b_name}
    names = {arm: f"{arm} ({name})" if name else f"{arm}" for arm, name in named.items()}
    lines = (_heading(outcome, names), _beside(outcome, names), _warning(outcome))
    return tuple(line for line in lines if line)


def _heading(outcome: Outcome, names: dict[Arm, str]) -> str:
    dip = outcome.dip
    if dip.value is None or dip.low is None or dip.high is None:
        if dip.pairs < FEWEST_PAIRS:
            return f"Cannot tell: it takes {FEWEST_PAIRS} whole pairs of blocks, not {dip.pairs}"
        return "Cannot tell: no dip was measured"
    for arm, count in zip(Arm, outcome.counts, strict=True):
        if not count.is_telling:
            done = count.counted - count.left - count.failed
            return (
                f"Cannot tell: only {done} of {count.counted} were done as asked with {names[arm]}"
            )
    if outcome.told is Finding.NO_DIFFERENCE:
        most = ceil(max(abs(dip.low), abs(dip.high), 1))
        return f"No difference you would notice: at most {_points(most, 0)} either way"
    if outcome.steadier is None:
        return "Cannot tell: there may be no difference, or one you would notice"
    digits = _decimals(dip)
    points = _points(abs(dip.value), digits)
    low, high = (f"{end:.{digits}f}" for end in sorted((abs(dip.low), abs(dip.high))))
    return f"{names[outcome.steadier]} is steadier by {points} ({low} to {high})"


def _beside(outcome: Outcome, names: dict[Arm, str]) -> str:
    """What there is to say beside the heading; empty where there is nothing."""
    dip = outcome.dip
    if dip.value is None or dip.low is None or dip.high is None or dip.p is None:
        return ""
    if not all(count.is_telling for count in outcome.counts):
        return "What was not done is taken to be as bad as the worst: the figures say little."
    if outcome.steadier is not None:
        return _others(outcome, outcome.steadier)
    if outcome.told is Finding.CANNOT_TELL:
        return _may_be(dip.low, dip.high, names)
    favoured = _better(dip)
    if favoured is None:
        return "Take the one you find easier."
    return f"What little there is favours {names[favoured]}."


def _may_be(low: float, high: float, names: dict[Arm, str]) -> str:
    """How much steadier each arm may be, where B less A may be from low to high."""
    by = {Arm.A: high, Arm.B: -low}
    more, less = (Arm.A, Arm.B) if high > -low else (Arm.B, Arm.A)
    start = f"{names[more]} may be steadier by up to {_points(by[more], 0)}"
    if round(by[less]) == 0:
        return f"{start}, or not at all."
    return f"{start}, or {names[less]} by up to {by[less]:.0f}."


def _others(outcome: Outcome, steadier: Arm) -> str:
    """Whether coming back over and settling agree with the dip."""
    saying: dict[tuple[str, str], list[str]] = {SAME: [], OPPOSITE: [], NOTHING: []}
    for one in (outcome.rebound, outcome.settle):
        better = _better(one)
        says = NOTHING if better is None else SAME if better is steadier else OPPOSITE
        saying[says].append(PHRASES[one.measure])
    parts = [f"{' and '.join(some)} {says[len(some) - 1]}" for says, some in saying.items() if some]
    return f"{'; '.join(parts)}.".capitalize()


def _better(one: Difference) -> Arm | None:
    """The arm that a measure favours by itself; None where it does not tell."""
    if one.value is None or one.p is None or one.p > LEVEL:
        return None
    return Arm.B if one.value < 0 else Arm.A


def _warning(outcome: Outcome) -> str:
    if not outcome.recalibrated:
        return ""
    return "The pedals were set up anew between blocks: part of this may be that."


def _decimals(one: Difference) -> int:
    """The fewest decimals that keep the interval clear of 0, where it is."""
    fewest = int(CATALOGUE[one.measure].form[-2])
    if one.low is None or one.high is None or one.low <= 0 <= one.high:
        return fewest
    nearest = min(abs(one.low), abs(one.high))
    digits = range(fewest, MOST_DECIMALS)
    return next((some for some in digits if round(nearest, some)), MOST_DECIMALS)


def _nearest(value: float, digits: int) -> float:
    """The nearest number of so many decimals, of two the higher one."""
    unit = 10.0**-digits
    return floor(value / unit + 0.5) * unit


def _points(value: float, digits: int) -> str:
    return CATALOGUE["dip"].with_unit(f"{value:.{digits}f}")


def _signed(value: float, digits: int) -> str:
    """A number with its sign, which nothing has none of."""
    return f"{value:+.{digits}f}" if round(value, digits) else f"{0:.{digits}f}"


def _chance(p: float) -> str:
    return f"{ceil(p * 100) / 100:.2f}"
