"""Five minutes: what comes next and why, until the time is over.

First what is due to be shown again, cold; then the steadiness band; then the levels that are
being learned, in turn and mixed with passed ones; at last a few with nothing shown. The plan is
that rule, asked again and again: the game asks it after each repetition that was played, `plan`
after each that it expects.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field, replace
from datetime import date
from math import inf

import numpy as np

from drills.level import Aid, Feedback, Level
from drills.trace import Pedal
from engine.practice.keeping import Keeping, Shown
from engine.practice.learning import learned, worked_on
from engine.practice.pace import Pace
from engine.practice.progress import ALL_PEDALS
from engine.practice.results import AWAY, Result, Sitting, Why

DUE_SHARE = 0.25
"""1, share of the time after which no further level is shown again."""
BAND_SHARE = 0.2
"""1, share of the time that the steadiness band may take."""
BAND_BLIPS = 6
"""count, blips a day that track the steadiness band."""
DARK = 3
"""count, repetitions at the end with nothing shown."""
EARLY = 10.0
"""s, left over after those, that are time for one more."""
LATE = 10.0
"""s, by which the time may run over for those."""
SLACK = 5.0
"""s, by which it may before them: about half a repetition."""
LONG = 15.0
"""s, a repetition that is too long for the end."""
MIXED_EVERY = 4
"""count, of so many repetitions one is of a passed level."""
MIXED_FROM = 6
"""count, hardest passed levels that are mixed in."""
LOTS = 2**32
"""count, lots of one seed."""
NOT_PASSED = Keeping()
"""How well a level is kept that was not passed by playing."""


@dataclass(frozen=True)
class Known:
    """What there is to know of a player on a day."""

    day: date
    """Local day."""
    levels: Sequence[Level]
    """All there are, each after those it needs."""
    done: frozenset[str] = frozenset()
    """Ids of the levels passed, by playing or by placing."""
    keeping: Mapping[str, Keeping] = field(default_factory=dict)
    """How well each passed level is kept, by its id."""
    recent: Sequence[Result] = ()
    """The newest repetitions, oldest first."""
    pace: Pace = field(default_factory=Pace)
    """How long they take."""
    band: Level | None = None
    """The drill of the steadiness band."""
    pedals: frozenset[Pedal] = ALL_PEDALS
    """Those that are there."""

    @property
    def playable(self) -> list[Level]:
        """The levels passed that the pedals allow, easiest first."""
        return [one for one in self.levels if one.id in self.done and self._allows(one)]

    @property
    def due(self) -> list[Level]:
        """The levels to be shown again: one under way, then the longest due, the hardest first."""
        due = [
            one
            for one in reversed(self.levels)
            if one.id in self.keeping and self._allows(one) and self.is_due(one)
        ]
        return sorted(due, key=lambda one: (not self.is_being_shown(one), self._due(one)))

    def is_due(self, level: Level) -> bool:
        """Whether it is to be shown again."""
        return self._keeping(level).is_due(self.day)

    def is_being_shown(self, level: Level) -> bool:
        """Whether it was begun today to show a level again, and more of it will tell."""
        return self._keeping(level).shown_on(self.day) is Shown.OPEN

    @property
    def can_blip(self) -> bool:
        """Whether there are blips to be steady in: a level of them is passed, the pedals there."""
        band = self.band
        return (
            band is not None
            and self._allows(band)
            and any(one.id in self.done and one.kind.name == band.kind.name for one in self.levels)
        )

    def after(self, result: Result) -> Known:
        """One repetition later, as far as that decides what comes next today."""
        recent = [*self.recent, result]
        if not result.counts:
            return replace(self, recent=recent)
        keeping, done = self.keeping, self.done
        if result.level in keeping:
            now = keeping[result.level].after(self.day, result.clean)
            keeping = {**keeping, result.level: now}
        elif _passes(result, recent):
            keeping = {**keeping, result.level: Keeping.passed(self.day)}
            done = done | {result.level}
        return replace(self, recent=recent, keeping=keeping, done=done)

    def _keeping(self, level: Level) -> Keeping:
        return self.keeping.get(level.id, NOT_PASSED)

    def _due(self, level: Level) -> date:
        return self._keeping(level).due or self.day

    def _allows(self, level: Level) -> bool:
        return self.pedals.issuperset(level.pedals)


@dataclass(frozen=True)
class Planned:
    """One repetition of a plan."""

    level: Level
    """What it is of."""
    why: Why
    """Why it comes."""

    @property
    def shown(self) -> Level:
        """The level as it is shown for this reason: what is asked cold waits for its word."""
        if self.why is Why.DARK:
            return replace(self.level, aid=Aid.NONE, feedback=Feedback.NONE, guess=False)
        if self.why in (Why.DUE, Why.WARM):
            return replace(self.level, feedback=Feedback.NONE, guess=False)
        return self.level


def following(known: Known, sitting: Sitting) -> Planned | None:
    """What comes next in a sitting; None where it is over.

    Raises ValueError where no level is open.
    """
    played = [one for one in sitting.results if not one.void]
    dark = sum(one.why is Why.DARK for one in played)
    worked = _worked_on(known)
    if not dark:
        room = sitting.left - _dark_time(known, sitting, worked)
        lit = _lit(known, sitting, played, worked)
        if known.pace.of(lit.level) <= room + SLACK:
            return lit
        short = _mixed_in(known, sitting, len(sitting.results), room + SLACK)
        if short is not None:
            return Planned(short, Why.MIX)
    if sitting.left <= (EARLY if dark >= DARK else 0):
        return None
    last = Planned(_in_the_dark(known, sitting, worked, dark), Why.DARK)
    return last if known.pace.of(last.level) <= sitting.left + LATE else None


def plan(known: Known, sitting: Sitting) -> list[Planned]:
    """What a sitting is expected to hold from now on: all of it clean, at the player's pace."""
    found: list[Planned] = []
    while (planned := following(known, sitting)) is not None:
        found.append(planned)
        level = planned.level
        result = Result(
            level=level.id,
            day=known.day,
            score=100.0,
            clean=True,
            void=False,
            rule=level.rule,
            kind=level.kind.name,
            why=planned.why,
            took=known.pace.of(level),
        )
        known = known.after(result)
        sitting = replace(sitting, results=(*sitting.results, result))
    return found


def shown_again(planned: Sequence[Planned]) -> int:
    """count of levels that a plan shows again."""
    return len({one.level.id for one in planned if one.why is Why.DUE})


def _lit(known: Known, sitting: Sitting, played: Sequence[Result], worked: Level) -> Planned:
    """What comes while there is time for more than the last few."""
    total = 60 * sitting.minutes
    due = next(iter(known.due), None)
    if due is not None and (
        _spent(sitting, Why.DUE) < DUE_SHARE * total
        or (known.is_being_shown(due) and _is_begun(due, sitting))
    ):
        return Planned(due, Why.DUE)
    blips = sum(one.why is Why.BAND for one in played)
    if (
        known.band is not None
        and known.can_blip
        and blips < BAND_BLIPS
        and _spent(sitting, Why.BAND) < BAND_SHARE * total
    ):
        return Planned(known.band, Why.BAND)
    learning = sum(one.why in (Why.LEARN, Why.MIX) for one in played)
    if learning % MIXED_EVERY == MIXED_EVERY - 1:
        mixed = _mixed_in(known, sitting, len(sitting.results))
        if mixed is not None:
            return Planned(mixed, Why.MIX)
    return Planned(worked, Why.LEARN)


def _in_the_dark(known: Known, sitting: Sitting, worked: Level, number: int) -> Level:
    """Of the last few: what is being learned between two that are passed; none is long."""
    passed = _mixed_in(known, sitting, -1 - number, LONG)
    if passed is not None and number != 1:
        return passed
    if known.pace.of(worked) <= LONG:
        return worked
    return passed or min([worked, *known.playable], key=known.pace.of)


def _worked_on(known: Known) -> Level:
    level = learned(known.levels, known.done, known.pedals, known.recent)
    return worked_on(level, known.levels, known.recent)


def _mixed_in(known: Known, sitting: Sitting, number: int, longest: float = inf) -> Level | None:
    """One of the hardest passed levels that are not due, by lot number; not what came last."""
    last = sitting.results[-1].level if sitting.results else ""
    pool = [
        one
        for one in known.playable
        if one.id != last and known.pace.of(one) <= longest and not known.is_due(one)
    ][-MIXED_FROM:]
    if not pool:
        return None
    rng = np.random.default_rng((sitting.seed, number % LOTS))
    return pool[int(rng.integers(len(pool)))]


def _dark_time(known: Known, sitting: Sitting, worked: Level) -> float:
    """s, what the last few will take."""
    last = (_in_the_dark(known, sitting, worked, number) for number in range(DARK))
    return sum(map(known.pace.of, last))


def _is_begun(level: Level, sitting: Sitting) -> bool:
    """Whether it was shown again in this sitting."""
    return any(one.why is Why.DUE and one.level == level.id for one in sitting.results)


def _spent(sitting: Sitting, why: Why) -> float:
    """s, spent on repetitions for one reason."""
    return sum(min(one.took or 0.0, AWAY) for one in sitting.results if one.why is why)


def _passes(result: Result, recent: Sequence[Result]) -> bool:
    latest = [one.clean for one in recent if one.counts and one.level == result.level]
    return sum(latest[-result.rule.of :]) >= result.rule.clean
