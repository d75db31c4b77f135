"""What there is to show of a history: plain values, read once, that every chart is drawn from."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date

from drills.deviation import Deviation
from drills.measures.catalogue import Measure
from engine.kit.steadiness_chart import SteadinessView
from engine.ladder.ladder import LadderStage
from engine.practice.changes import Change
from engine.practice.steadiness import DaySteadiness
from engine.progress.bins import CalendarBin, EqualCountBin, Unit
from engine.progress.learning_curve import LearningCurve


@dataclass(frozen=True)
class Week:
    """The single blips of a week, laid on each other."""

    first: date
    """Its first day."""
    last: date
    """Its last day."""
    blips: tuple[Deviation, ...]
    """Those that are drawn, oldest first."""
    median: Deviation
    """The middle of them at every moment."""
    of: int
    """count of blips of the week that have a trace; more than are drawn where those are many."""
    dip: float
    """points, the median dip of those that are drawn."""


@dataclass(frozen=True)
class BinnedMeasure:
    """A measure of single blips over the days."""

    unit: Unit
    """How long a bin is."""
    bins: tuple[CalendarBin, ...] = ()
    """The bins, in order; none where nothing enters a trend yet."""
    left_out: int = 0
    """count of repetitions that were left out, as the first of their days."""


@dataclass(frozen=True)
class KindProgress:
    """How one kind of drill is learned."""

    name: str
    """What a repetition of it is, in a few words."""
    measure: Measure
    """What is learned to be less."""
    growth: LearningCurve
    """How it goes on."""
    words: str
    """The same in a sentence or two."""
    handfuls: tuple[EqualCountBin, ...]
    """Its repetitions, a handful at a time."""
    begins: int
    """count of its repetitions before the curve begins."""
    changes: tuple[tuple[int, Change], ...] = ()
    """Every change that was marked between two of its repetitions, after how many of them."""


@dataclass(frozen=True)
class Progress:
    """Everything that progress is told from."""

    today: date
    """The local day it is told on."""
    weeks: tuple[Week, ...] = ()
    """The first week of single blips and this one; fewer where there is no more yet."""
    band: SteadinessView | None = None
    """The steadiness band as it stands; None before there is one."""
    bands: tuple[DaySteadiness, ...] = ()
    """The band at the end of a day, of a few days at most for each that can be told apart."""
    dips: BinnedMeasure = BinnedMeasure(Unit.DAY)
    """points, how far the brake fell at single blips."""
    distances: BinnedMeasure = BinnedMeasure(Unit.DAY)
    """m, what single blips would cost in stopping distance."""
    learned: tuple[KindProgress, ...] = ()
    """How each kind that was practised is learned, in the order of the kinds."""
    stages: tuple[LadderStage, ...] = ()
    """The stages with their levels as they stand."""
    days: tuple[tuple[date, int], ...] = ()
    """Every day with practice and how many repetitions counted on it, in order."""
    changes: tuple[Change, ...] = ()
    """Every change that was marked, oldest first."""
