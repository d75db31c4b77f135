"""A simulated player who practises five minutes a day: the real planner, judge and history."""

from __future__ import annotations

from dataclasses import dataclass, replace
from datetime import date, datetime, timedelta

import numpy as np

from drills.level import Level
from engine.five.pace import USUAL
from engine.five.planner import Planned, following, seed_of
from engine.five.player_history import player_state_of, tolerance_now, with_tolerance
from engine.five.player_state import PlayerState
from engine.five.saved import begin_session, end_session
from engine.five.saved_focus import refresh_focus
from engine.ladder.level_files import SHIPPED, load_band, load_levels
from engine.practice.passes import ALL_PEDALS
from engine.practice.results import MINUTES, Session, SessionKind
from engine.store import History, Record
from engine.store.repetitions import add_repetition, recent_results
from tests.bench.judged_feet import JudgedFeet

LEVELS, BAND = load_levels([SHIPPED]), load_band()
HURRY = 0.1
"""Standard deviation of the logarithm of how long a repetition takes."""
VOID_TAKES = 0.6
"""Time of a void repetition as a share of one that counts."""
FORM = 0.03
"""Standard deviation of the skill from day to day, as a share of the way to an expert."""
RUST, MOST_RUST = 0.004, 0.1
"""Skill lost for each day without practice after the first, and the most there is to lose."""
RUST_LEFT = 0.5
"""Share of the skill lost in a pause that is still lost one day of practice later."""


@dataclass(frozen=True)
class SkillCurve:
    """Skill of a simulated foot over its repetitions: an exponential from a start to a ceiling."""

    start: float
    """Skill before the first repetition, from 0 to 1."""
    ceiling: float
    """Skill that practice leads to, from 0 to 1."""
    takes: float
    """Repetitions in which all but 37 % of the way is made, as a count."""

    def at(self, repetitions: int) -> float:
        """Skill after a number of repetitions."""
        left = np.exp(-repetitions / self.takes)
        return float(self.ceiling - (self.ceiling - self.start) * left)


LEARNER = SkillCurve(0.15, 0.95, 1700)
"""Foot that has made nearly two thirds of its way after two months of five minutes a day."""
EXPERT = SkillCurve(0.95, 0.95, 1)


class Player:
    """A simulated player with a history: practises on one day after another."""

    def __init__(
        self, history: History, feet: JudgedFeet, curve: SkillCurve, begin: datetime, seed: int = 1
    ) -> None:
        self.history = history
        self.curve = curve
        self.begin = begin
        self.feet = feet
        self.repetitions = 0
        """Repetitions that counted so far, as a count."""
        self._rng = np.random.default_rng(seed)
        self._rust = 0.0
        self._last: date | None = None

    def moment(self, day: int) -> datetime:
        """When five minutes begin on a day, from 0."""
        return self.begin + timedelta(days=day)

    def state(self, day: date) -> PlayerState:
        """What the planner knows of the player on a day."""
        return player_state_of(self.history, LEVELS, BAND, ALL_PEDALS, day)

    def practise(self, day: int) -> Session:
        """Play five minutes on a day, from 0; the session as it ended."""
        began = self.moment(day)
        skill = self._skill(began.date())
        seed = seed_of(began.date())
        number = begin_session(self.history, SessionKind.FIVE, began, MINUTES, seed)
        session = Session(number, SessionKind.FIVE, began, MINUTES, seed)
        before: Level | None = None
        refresh_focus(self.history, began.date())
        state = self.state(began.date())
        while (planned := following(state, session)) is not None:
            before = self._take(planned, state, session, before, skill)
            session = replace(
                session, results=(*session.results, recent_results(self.history, 1)[-1])
            )
            state = self.state(began.date())
        end_session(self.history, number)
        refresh_focus(self.history, began.date())
        self.repetitions += sum(result.counts for result in session.results)
        return session

    def _skill(self, today: date) -> float:
        """Skill of a day: that of the curve, less what a pause cost, in the form of the day."""
        pause = 0 if self._last is None else (today - self._last).days - 1
        self._rust = min(self._rust * RUST_LEFT + RUST * max(pause - 1, 0), MOST_RUST)
        self._last = today
        form = FORM * self._rng.standard_normal()
        return min(max(self.curve.at(self.repetitions) - self._rust + form, 0.0), 1.0)

    def _take(
        self,
        planned: Planned,
        state: PlayerState,
        session: Session,
        before: Level | None,
        skill: float,
    ) -> Level:
        """Play and store one planned repetition; the level that it was of, drawn or its own."""
        level, asked, rng = planned.as_played, None, self._rng
        if level.id == BAND.id:
            asked = tolerance_now(self.history, BAND)
            level = with_tolerance(level, asked)
        pool = [one for one in state.playable if one.kind.name != level.kind.name]
        drawn = level.kind.draw(level, pool or LEVELS[:1], before, rng)
        record = self.feet.record(drawn, skill, rng)
        add_repetition(self.history, self._whole(record, planned, drawn, session, asked))
        return drawn

    def _whole(
        self,
        record: Record,
        planned: Planned,
        drawn: Level,
        session: Session,
        asked: float | None,
    ) -> Record:
        """The record with what is known of it beside its verdict."""
        level = planned.level
        usual = USUAL + drawn.own.get("duration", 0.0)
        took = float(usual * np.exp(HURRY * self._rng.standard_normal()))
        took *= VOID_TAKES if record.verdict.void else 1.0
        return replace(
            record,
            level=level.id,
            rule=level.rule,
            drawn=drawn.id if drawn.id != level.id else "",
            why=planned.why,
            session=session.number,
            seed=session.seed,
            took=took,
            asked=asked,
            at=session.began + timedelta(seconds=session.spent + took),
        )
