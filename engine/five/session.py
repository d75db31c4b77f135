"""Runs a session: one planned repetition after another, with its screens, until it is over."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass, replace
from datetime import date

import numpy as np

from drills.level import Level
from engine.drill.attempt import Assignment, Attempt, Setting, wait_for_pedals
from engine.drill.between import Between
from engine.drill.interruptions import Pause
from engine.drill.lesson_flow import pause_set, teach
from engine.drill.moment_rules import Achievement
from engine.drill.moments import Moments
from engine.drill.pairs import half_of_pair
from engine.drill.remarks import ShownRemarks
from engine.drill.set_log import SetLog
from engine.drill.turn import Pictures, Turn, is_given_up, take_turn
from engine.five.fatigue_screen import FatigueScreen
from engine.five.planner import Planned, next_to_learn, seed_of
from engine.five.player_history import player_state_of, tolerance_now, with_tolerance
from engine.five.player_state import PlayerState
from engine.five.practice_time import PracticeTime
from engine.five.reasons import reason_of
from engine.five.retention_screen import RetentionScreen, check_of
from engine.five.saved import begin_session, end_session, session_under_way
from engine.five.session_marks import marks_before
from engine.kit.base import Place
from engine.kit.flow import show
from engine.kit.repetition_marks import Mark
from engine.kit.timed_screen import TimedOutcome
from engine.practice import fatigue
from engine.practice.focus import Focus
from engine.practice.results import Purpose, Result, Session, SessionKind, TrialDay
from engine.practice.retention import Retention
from engine.stage.scene import Flow
from engine.store import History, Record
from engine.store.passes import passed_in
from engine.store.repetitions import recent_results

STREAM = 2
"""Number of the random stream for foreperiods and targets, apart from the planner's stream."""


@dataclass(frozen=True)
class SessionRules:
    """Kind and length of a session, and the rule that chooses its next repetition."""

    what: SessionKind
    """Kind of the session: five minutes, or a warm-up."""
    minutes: float
    """Length of the session in minutes, if it is a new one."""
    following: Callable[[PlayerState, Session], Planned | None]
    """Chooses the next repetition; None ends the session."""
    trial_day: TrialDay | None = None
    """Day of a trial that the steadiness blips belong to; None if they belong to no trial."""


@dataclass(frozen=True)
class SessionLog:
    """Session as it was played, and the state of the player after it."""

    session: Session
    """The session, with what was played before an interruption too."""
    now: PlayerState
    """State of the player after the session."""
    pictures: Pictures
    """Brake curves of the repetitions played since the session was begun or resumed."""
    home: bool
    """Whether the player goes home at once, without the end screen."""
    bests: Mapping[str, float]
    """Best score of each level played, 0 to 100, before the session, by the id of the level."""
    achieved: tuple[Achievement, ...] = ()
    """What it achieved and no moment has shown yet."""
    passed: frozenset[str] = frozenset()
    """Ids of the levels that its repetitions were the first to pass."""
    focus: Focus | None = None
    """Fault that was worked on in it; None if there was none."""


def run_session(
    rules: SessionRules, setting: Setting, history: History, band: Level
) -> Flow[SessionLog]:
    """Run a new session, or resume today's that was left before its end. Raises StoreError.

    Each repetition is stored as one of its own level. `band` is the steadiness drill.
    """
    running = _Running(rules, setting, history, band)
    return (yield from running.time.of(running.run()))


class _Running:
    """A session while it is being played: chooses, plays and stores its repetitions in turn."""

    def __init__(
        self, rules: SessionRules, setting: Setting, history: History, band: Level
    ) -> None:
        self._rules = rules
        self._setting = setting
        self._history = history
        self._band = band
        self._session = _begun_or_resumed(rules, setting, history)
        self._player = self._player_on(setting.now().date())
        self._focus = self._player.focus
        self._usual = fatigue.usual_scores(self._player.recent)
        self._pictures, self._between = Pictures(), Between(setting)
        self._moments = Moments(setting, lambda: next_to_learn(self._player))
        self._records: list[Record] = []
        self._logs: dict[tuple[str, Purpose], SetLog] = {}
        self._remarks = ShownRemarks()
        self._before: Level | None = None
        self.time = PracticeTime(setting.rig.clock)
        self._tired_at: dict[str, int] = {}

    def run(self) -> Flow[SessionLog]:
        """Play repetitions until the session is over or the player stops; returns its log."""
        rig, stage = self._setting.rig, self._setting.stage
        stage.speaker.prepare()
        on = yield from wait_for_pedals(rig, stage)
        self.time.restart()
        while on and (planned := self._following()) is not None:
            before = self._player
            turn = yield from self._turn(planned)
            on, menu = turn.may_continue, turn.asked_for_menu
            if turn.attempt.record is not None:
                self._take(turn.attempt.record)
                if on:
                    menu = yield from self._look_back(planned, before, menu=menu)
                else:
                    self._moments.take(self._logs[planned.level.id, planned.why])
                if on and not menu and self._following() is not None:
                    on = yield from self._interrupt(turn.attempt)
            elif not self._records and not turn.attempt.asked_for_menu:
                break
            if on and menu:
                pause = yield from self._pause(turn.attempt.level)
                if pause is Pause.HOME:
                    return self._ran(home=True)
                on = pause is Pause.ON
        return self._ran(home=False)

    def _following(self) -> Planned | None:
        """The next repetition; None if the session is over, or too many in a row were void."""
        if is_given_up(self._records):
            return None
        return self._rules.following(self._player, self._session)

    def _turn(self, planned: Planned) -> Flow[Turn]:
        """Play one planned repetition, with its reveal."""
        setting, session = self._setting, self._session
        level, asked = planned.as_played, None
        if level.id == self._band.id:
            asked = tolerance_now(self._history, self._band)
            level = with_tolerance(level, asked)
        rng = np.random.default_rng((session.seed, STREAM, len(session.results)))
        drawn = level.kind.draw(level, setting.drawable(level), self._before, rng)
        drawn = half_of_pair(drawn, self._counted(level), session.seed)
        self._setting = setting = yield from teach(drawn, setting, self._place())
        log = self._logs.setdefault(
            (level.id, planned.why), SetLog(level, self._history, self._remarks)
        )
        log.level = level
        task = Assignment(
            level,
            replace(planned, level=drawn).as_played,
            session.seed,
            planned.why,
            session.number,
            self.time.since(),
            asked,
            self._target_of(level),
        )
        if planned.why is Purpose.BAND and (day := self._rules.trial_day) is not None:
            task = replace(task, trial=day.trial, block=day.block)
        why = reason_of(planned, self._player, asked)
        place = self._place(why, marks_before(planned, session.results))
        turn = yield from take_turn(task, place, log, self._pictures, setting, rng)
        if turn.attempt.record is not None:
            self._before = drawn
        return turn

    def _counted(self, level: Level) -> int:
        """Number of repetitions of a level that counted in the session so far."""
        results = self._session.results
        return sum(result.level == level.id and not result.void for result in results)

    def _target_of(self, level: Level) -> int:
        """Index into the level's list of targets, from 1; beyond the list's end it wraps around.

        It moves on with each repetition of the level, and another day begins at another target.
        """
        played = sum(
            result.level == level.id and not result.void for result in self._session.results
        )
        return 1 + self._session.seed + played

    def _place(self, why: str = "", marks: tuple[Mark, ...] | None = None) -> Place:
        """Position in the session for a screen: number of the next repetition, time left."""
        session = self._session
        number = 1 + sum(not result.void for result in session.results)
        share = min(max(session.left / (60 * session.minutes), 0.0), 1.0)
        return Place(number, 0, "", why, share, session.minutes, marks)

    def _take(self, record: Record) -> None:
        """Add a repetition just played to the session, and update the player's state."""
        self._records.append(replace(record, trace=None))
        self.time.take(record.took or 0.0)
        result = recent_results(self._history, 1)[-1]
        self._session = replace(self._session, results=(*self._session.results, result))
        self._player = self._player_on(result.day, [*self._player.recent, result])

    def _player_on(self, day: date, known: Sequence[Result] = ()) -> PlayerState:
        """State of the player on this local day; `known` are the newest repetitions, if read."""
        levels, there = self._setting.levels, self._setting.there
        return player_state_of(self._history, levels, self._band, there, day, known)

    def _look_back(self, planned: Planned, before: PlayerState, *, menu: bool) -> Flow[bool]:
        """After a repetition: show what it achieved, and the outcome of a check it decided.

        The check is not shown where the player asked for the `menu`; nor is what was achieved where
        no repetition follows, as it waits for the end. Returns whether to open the menu.
        """
        level, log = planned.level, self._logs[planned.level.id, planned.why]
        check = None
        if planned.why is Purpose.DUE and not menu:
            check = check_of(level, log, before, self._player.retention.get(level.id))
        self._moments.take(log, told=check is not None)
        if self._following() is not None:
            menu = (yield from self._moments.show(self._place())) or menu
        if check is None:
            return menu
        pictures = self._pictures.of(level)[-check.drawn :] if check.drawn else ()
        screen = RetentionScreen(check, pictures, self._place())
        after = yield from show(screen, self._setting.rig, self._setting.stage)
        return menu or after is TimedOutcome.MENU

    def _interrupt(self, attempt: Attempt) -> Flow[bool]:
        """Show what came up in a repetition, or falling scores; returns whether to go on."""
        rig, stage = self._setting.rig, self._setting.stage
        if not (yield from self._between.after(attempt, self._records)):
            return False
        results = self._session.results
        scored = fatigue.scored_in(results, self._usual, self._tired_at)
        tires = fatigue.fatigue_of(scored)
        if tires is None:
            return True
        self._tired_at[tires.kind] = len(results)
        titles = {level.kind.name: level.kind.title for level in self._setting.levels}
        screen = FatigueScreen(titles.get(tires.kind, tires.kind), tires.fall)
        stop = yield from show(screen, rig, stage)
        if stop:
            self._end()
        return not stop

    def _pause(self, level: Level) -> Flow[Pause]:
        """Show the small menu after a repetition of `level`; returns what the player chose."""
        done = sum(not result.void for result in self._session.results)
        return (yield from pause_set(done, 0, self._place(), level, self._setting))

    def _ran(self, *, home: bool) -> SessionLog:
        """Log of the session so far; stores its end if no repetition follows."""
        is_played = self._session.results and not is_given_up(self._records)
        if is_played and self._following() is None:
            self._end()
        bests = {level: log.before.top for (level, _), log in reversed(self._logs.items())}
        session, player, waiting = self._session, self._player, self._moments.waiting
        passed = passed_in(self._history, session.number, _newly_passed(session, player))
        pictures, focus = self._pictures, self._focus
        return SessionLog(session, player, pictures, home, bests, waiting, passed, focus)

    def _end(self) -> None:
        """Store in the history that the session is over for today."""
        end_session(self._history, self._session.number)
        self._session = replace(self._session, over=True)


def _newly_passed(session: Session, player: PlayerState) -> list[str]:
    """Ids of the levels of a session that were passed on one of its days, in it or beside it."""
    passed = [Retention.passed(day) for day in {result.day for result in session.results}]
    played = {result.level for result in session.results}
    return [level for level in played if player.retention.get(level) in passed]


def _begun_or_resumed(course: SessionRules, setting: Setting, history: History) -> Session:
    """Today's session that was left before its end, or else a new one, stored as begun."""
    now = setting.now()
    found = session_under_way(history, course.what, now.date())
    if found is not None and (found.results or found.minutes == course.minutes):
        return found
    seed = seed_of(now.date())
    number = begin_session(history, course.what, now, course.minutes, seed)
    return Session(number, course.what, now, course.minutes, seed)
