"""Runs a session: one planned repetition after another, with its screens, until it is over."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass, replace
from datetime import date

import numpy as np

from drills.level import Level
from drills.trace import SECOND
from engine.drill.attempt import Assignment, Setting, wait_for_pedals
from engine.drill.interruptions import Busy, Pause, SmallMenu
from engine.drill.set_log import SetLog
from engine.drill.tally import missed_most
from engine.drill.turn import Pictures, Turn, is_busy, is_given_up, take_turn
from engine.five import retention_screen
from engine.five.fatigue_screen import FatigueScreen
from engine.five.planner import Planned, seed_of
from engine.five.player_history import player_state_of, tolerance_now, with_tolerance
from engine.five.player_state import PlayerState
from engine.five.saved import begin_session, end_session, session_under_way
from engine.kit.base import Menu, Place
from engine.kit.flow import show, watched
from engine.kit.repetition_marks import Mark
from engine.kit.timed_screen import TimedOutcome
from engine.practice import fatigue
from engine.practice.results import Purpose, Session, SessionKind
from engine.practice.retention import CheckOutcome
from engine.stage.scene import Flow, Scene, T
from engine.store import History, Record
from engine.store.repetitions import recent_results

WORDS = {Purpose.DUE: "show it again"}
"""Words for the purpose of a repetition, where its own value would not tell the player."""
STREAM = 2
"""Random stream, by its number, that foreperiods and targets come from: apart from the plan's."""


@dataclass(frozen=True)
class SessionRules:
    """Kind and length of a session, and the rule for what comes next in it."""

    what: SessionKind
    """Whether it is five minutes or a warm-up."""
    minutes: float
    """Length of a new session, in minutes."""
    following: Callable[[PlayerState, Session], Planned | None]
    """Returns the next repetition; None where the session is over."""


@dataclass(frozen=True)
class SessionLog:
    """A session that was run, and where it leaves the player."""

    session: Session
    """The session, with what was played before it was resumed."""
    now: PlayerState
    """State of the player after it."""
    pictures: Pictures
    """Curves of the repetitions played since it was begun or resumed."""
    home: bool
    """Whether the player wants to go home without seeing how it went."""
    bests: Mapping[str, float]
    """Best score of each level played, 0 to 100, as it was before the session, by its id."""


def run_session(
    rules: SessionRules, setting: Setting, history: History, band: Level
) -> Flow[SessionLog]:
    """Run a new session, or the rest of today's that was left in the middle. Raises StoreError.

    Each repetition is stored as one of its own level. `band` is the steadiness drill.
    """
    running = _Running(rules, setting, history, band)
    return (yield from running.timed(running.run()))


class _Running:
    """A session under way."""

    def __init__(
        self, rules: SessionRules, setting: Setting, history: History, band: Level
    ) -> None:
        self._rules = rules
        self._setting = setting
        self._history = history
        self._band = band
        self._session = _begun_or_resumed(rules, setting, history)
        self._player = self._player_on(setting.now().date())
        self._usual = fatigue.usual_scores(self._player.recent)
        self._pictures = Pictures()
        self._records: list[Record] = []
        self._logs: dict[tuple[str, Purpose], SetLog] = {}
        self._before: Level | None = None
        self._since = self._opened = setting.rig.clock()
        self._tired_at: dict[str, int] = {}

    def timed(self, flow: Flow[T]) -> Flow[T]:
        """A flow of the session with its clock stopped while a menu is open."""
        return watched(flow, self._open, self._close)

    def _open(self, _: Scene) -> None:
        """Note when a screen opens."""
        self._opened = self._setting.rig.clock()

    def _close(self, scene: Scene) -> None:
        """Take the time that a menu was open out of the next repetition's."""
        if isinstance(scene.screen, Menu):
            self._since += self._setting.rig.clock() - self._opened

    def run(self) -> Flow[SessionLog]:
        """Play repetitions until the rule says that the session is over, or the player stops."""
        rig, stage = self._setting.rig, self._setting.stage
        stage.speaker.prepare()
        on = yield from wait_for_pedals(rig, stage)
        self._since = rig.clock()
        while on and (planned := self._following()) is not None:
            before = self._player
            turn = yield from self._turn(planned)
            on, menu = turn.may_continue, turn.asked_for_menu
            if turn.attempt.record is not None:
                self._take(turn.attempt.record)
                if on and not menu:
                    menu = yield from self._show_check(planned, before)
                if on and not menu and self._following() is not None:
                    on = yield from self._interrupt()
            elif not self._records and not turn.attempt.asked_for_menu:
                break
            if on and menu:
                pause = yield from self._pause()
                if pause is Pause.HOME:
                    return self._ran(home=True)
                on = pause is Pause.ON
        return self._ran(home=False)

    def _following(self) -> Planned | None:
        """The next repetition; None where the session is over, or too many were void in a row."""
        if is_given_up(self._records):
            return None
        return self._rules.following(self._player, self._session)

    def _turn(self, planned: Planned) -> Flow[Turn]:
        """Play one repetition, with its reveal."""
        setting, session = self._setting, self._session
        level, asked = planned.as_played, None
        if level.id == self._band.id:
            asked = tolerance_now(self._history, self._band)
            level = with_tolerance(level, asked)
        rng = np.random.default_rng((session.seed, STREAM, len(session.results)))
        drawn = level.kind.draw(level, setting.drawable(level), self._before, rng)
        log = self._logs.setdefault((level.id, planned.why), SetLog(level, self._history))
        log.level = level
        task = Assignment(
            level,
            replace(planned, level=drawn).as_played,
            session.seed,
            planned.why,
            session.number,
            self._since,
            asked,
            self._target_of(level),
        )
        why = _purpose_words(planned.why, asked)
        place = self._place(drawn.kind.title, why)
        turn = yield from take_turn(task, place, log, self._pictures, setting, rng)
        if turn.attempt.record is not None:
            self._before = drawn
        return turn

    def _target_of(self, level: Level) -> int:
        """Position of the next target in a level's list, from 1 and beyond its end.

        It moves on with each repetition of the level, and another day begins at another target.
        """
        played = sum(
            result.level == level.id and not result.void for result in self._session.results
        )
        return 1 + self._session.seed + played

    def _place(self, named: str = "", why: str = "") -> Place:
        """Place in the session that a screen shows: the next number and the share of time left."""
        session = self._session
        number = 1 + sum(not result.void for result in session.results)
        share = min(max(session.left / (60 * session.minutes), 0.0), 1.0)
        return Place(number, 0, named, why, share, session.minutes)

    def _take(self, record: Record) -> None:
        """Add a repetition that was played to the session and to the player's state."""
        self._records.append(replace(record, trace=None))
        self._since += round((record.took or 0.0) * SECOND)
        results = (*self._session.results, recent_results(self._history, 1)[-1])
        self._session = replace(self._session, results=results)
        self._player = self._player_on(results[-1].day)

    def _player_on(self, day: date) -> PlayerState:
        """State of the player on a day, read from the history."""
        setting = self._setting
        return player_state_of(self._history, setting.levels, self._band, setting.rig.there, day)

    def _show_check(self, planned: Planned, before: PlayerState) -> Flow[bool]:
        """Show the outcome of a retention check just decided; whether the menu is asked for."""
        level, day = planned.level, self._player.day
        now = self._player.retention.get(level.id)
        outcome = None if now is None else now.outcome_on(day)
        if planned.why is not Purpose.DUE or now == before.retention.get(level.id):
            return False
        if (
            now is None
            or now.due is None
            or outcome not in (CheckOutcome.RETAINED, CheckOutcome.NOT_TODAY)
        ):
            return False
        log = self._logs[level.id, Purpose.DUE]
        records = [record for record in log.counting if record.at.date() == day]
        whole = len(records) == len(now.first)
        missed = missed_most(record.verdict for record in records) if whole else None
        check = retention_screen.RetentionCheck(
            level.title,
            outcome,
            tuple(Mark.CLEAN if clean else Mark.MISSED for clean in now.first),
            now.is_well_retained,
            (now.due - day).days,
            "" if missed is None else missed.label,
        )
        pictures = self._pictures.of(level)[-len(records) :] if whole else ()
        screen = retention_screen.RetentionScreen(check, pictures, self._place())
        after = yield from show(screen, self._setting.rig, self._setting.stage)
        return after is TimedOutcome.MENU

    def _interrupt(self) -> Flow[bool]:
        """Tell the player of a busy computer or a tired foot; whether the session goes on."""
        rig, stage = self._setting.rig, self._setting.stage
        if is_busy(self._records):
            return (yield from show(Busy(), rig, stage))
        tires = fatigue.fatigue_of(self._scored())
        if tires is None:
            return True
        self._tired_at[tires.kind] = len(self._session.results)
        fall = tires.fall * (fatigue.NEWEST - 1)
        titles = {level.kind.name: level.kind.title for level in self._setting.levels}
        stop = yield from show(FatigueScreen(titles.get(tires.kind, tires.kind), fall), rig, stage)
        if stop:
            self._end()
        return not stop

    def _scored(self) -> list[fatigue.Scored]:
        """Scores by kind of drill, each less the usual score of its level.

        So a harder level does not look like fatigue; those with nothing shown are left out for the
        same reason.
        """
        results = self._session.results
        usual = {**fatigue.usual_scores(results, 1), **self._usual}
        return [
            fatigue.Scored(result.kind, result.score - usual[result.level])
            for number, result in enumerate(results)
            if result.counts and result.score is not None and result.why is not Purpose.DARK
            if number >= self._tired_at.get(result.kind, 0)
        ]

    def _pause(self) -> Flow[Pause]:
        """Show the small menu; what the player chose."""
        done = sum(not result.void for result in self._session.results)
        menu = SmallMenu(done, 0, self._place())
        return (yield from show(menu, self._setting.rig, self._setting.stage))

    def _ran(self, *, home: bool) -> SessionLog:
        """The log of the session, which is ended where nothing more follows in it."""
        is_played = self._session.results and not is_given_up(self._records)
        if is_played and self._following() is None:
            self._end()
        bests = {level: log.before.top for (level, _), log in reversed(self._logs.items())}
        return SessionLog(self._session, self._player, self._pictures, home, bests)

    def _end(self) -> None:
        """Store that the session is over for today."""
        end_session(self._history, self._session.number)
        self._session = replace(self._session, over=True)


def _begun_or_resumed(course: SessionRules, setting: Setting, history: History) -> Session:
    """Today's session that was left in the middle, or a new one."""
    now = setting.now()
    found = session_under_way(history, course.what, now.date())
    if found is not None and (found.results or found.minutes == course.minutes):
        return found
    seed = seed_of(now.date())
    number = begin_session(history, course.what, now, course.minutes, seed)
    return Session(number, course.what, now, course.minutes, seed)


def _purpose_words(why: Purpose, asked: float | None) -> str:
    """Words for the purpose of a repetition; `asked` is the tolerance of a steadiness blip."""
    if why is Purpose.BAND and asked is not None:
        return f"steadiness: within {asked:.0f} points"
    return WORDS.get(why, why.value)
