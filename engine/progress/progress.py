"""Values that every page of the history and the report are drawn from, read once."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date

from drills.deviation import Deviation
from drills.measures.catalogue import Measure
from engine.kit.steadiness_chart import SteadinessView
from engine.ladder.ladder import LadderStage
from engine.practice.changes import Change
from engine.practice.steadiness import DaySteadiness
from engine.progress.bins import BinLength, CalendarBin, EqualCountBin
from engine.progress.learning_curve import LearningCurve


@dataclass(frozen=True)
class Week:
    """The single blips of a week, laid over each other."""

    first: date
    """First day of the week."""
    last: date
    """Last day of the week; today, where the week is not over yet."""
    blips: tuple[Deviation, ...]
    """Blips that are drawn, oldest first."""
    median: Deviation
    """Median of the drawn blips at every moment."""
    traced: int
    """Number of the week's blips that have a trace; not all are drawn where there are many."""
    dip: float
    """Median dip of the drawn blips, in points."""


@dataclass(frozen=True)
class BinnedMeasure:
    """A measure of single blips, in calendar bins."""

    length: BinLength
    """Length of a bin."""
    bins: tuple[CalendarBin, ...] = ()
    """Bins with practice, oldest first."""
    left_out: int = 0
    """Number of repetitions left out as the warm-up of their day."""


@dataclass(frozen=True)
class KindProgress:
    """How one kind of drill is learned."""

    name: str
    """Title of the kind of drill."""
    measure: Measure
    """Measure that learning makes smaller."""
    learning: LearningCurve
    """Learning curve, and what it tells."""
    words: str
    """Sentence or two about the learning curve."""
    bins: tuple[EqualCountBin, ...]
    """Equal-count bins of its repetitions, oldest first."""
    curve_begins: int
    """Number of its repetitions before the curve begins."""
    changes: tuple[tuple[int, Change], ...] = ()
    """Marked changes, each after the number of the kind's repetitions that came before it."""


@dataclass(frozen=True)
class Progress:
    """Everything that the pages of the history and the report are drawn from."""

    today: date
    """Local day on which it was read."""
    weeks: tuple[Week, ...] = ()
    """First week of single blips and the current one; fewer where there is not enough practice."""
    steadiness: SteadinessView | None = None
    """Steadiness as it stands; None before it can be measured."""
    daily_steadiness: tuple[DaySteadiness, ...] = ()
    """Steadiness at the end of some days, oldest first: of only as many as can be told apart."""
    dips: BinnedMeasure = BinnedMeasure(BinLength.DAY)
    """Dip of single blips, in points."""
    distances: BinnedMeasure = BinnedMeasure(BinLength.DAY)
    """Extra stopping distance of single blips, in m."""
    kinds: tuple[KindProgress, ...] = ()
    """Every kind of drill that was practised, in the order of the kinds."""
    stages: tuple[LadderStage, ...] = ()
    """Stages of the ladder, with the state of their levels."""
    days: tuple[tuple[date, int], ...] = ()
    """Days with practice and the number of repetitions that counted on each, oldest first."""
    changes: tuple[Change, ...] = ()
    """Marked changes, oldest first."""
    chosen: int = 0
    """Index into `kinds` of the one whose learning curve is drawn."""
