"""What runs by itself once it is begun: repetitions of ever another level, until it is over."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass, replace
from datetime import date

import numpy as np

from drills.level import Level
from drills.trace import SECOND
from engine.drill.attempt import Assignment, Setting, wait_for_pedals
from engine.drill.interruptions import Busy, Pause, SmallMenu
from engine.drill.tally import SetLog, missed_most
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
"""Why a repetition comes, where its own word does not say so to the player."""
CHANCE = 2
"""Number of the random stream that waits and targets come from: one apart from the plan's."""


@dataclass(frozen=True)
class SessionRules:
    """What runs by itself."""

    what: SessionKind
    """What it is."""
    minutes: float
    """min, how long it is."""
    following: Callable[[PlayerState, Session], Planned | None]
    """What comes next; None where it is over."""


@dataclass(frozen=True)
class SessionLog:
    """What came of it."""

    session: Session
    """All of it, with what was played of it before it was taken up again."""
    now: PlayerState
    """What is known now."""
    pictures: Pictures
    """The pictures of its repetitions."""
    home: bool
    """Whether the player wants home now and not to see how it went."""
    bests: Mapping[str, float]
    """0 to 100, the best score of each level played as it was before, by its id."""


def run_session(
    course: SessionRules, setting: Setting, history: History, band: Level
) -> Flow[SessionLog]:
    """Play it to its end, or take up the one of today that was left in the middle.

    A repetition is kept as one of its own level. `band` is the drill of the steadiness band.
    """
    running = _Running(course, setting, history, band)
    return (yield from running.timed(running.run()))


class _Running:
    """One time of it."""

    def __init__(
        self, course: SessionRules, setting: Setting, history: History, band: Level
    ) -> None:
        self._course = course
        self._setting = setting
        self._history = history
        self._band = band
        self._sitting = _taken_up(course, setting, history)
        self._known = self._ask(setting.now().date())
        self._usual = fatigue.usual_scores(self._known.recent)
        self._pictures = Pictures()
        self._records: list[Record] = []
        self._kept: dict[tuple[str, Purpose], SetLog] = {}
        self._before: Level | None = None
        self._since = self._opened = setting.rig.clock()
        self._tired_at: dict[str, int] = {}

    def timed(self, flow: Flow[T]) -> Flow[T]:
        """A flow of it; while there is a choice to be made the time stands still."""
        return watched(flow, self._open, self._close)

    def _open(self, _: Scene) -> None:
        self._opened = self._setting.rig.clock()

    def _close(self, scene: Scene) -> None:
        if isinstance(scene.screen, Menu):
            self._since += self._setting.rig.clock() - self._opened

    def run(self) -> Flow[SessionLog]:
        """Repetitions until nothing follows."""
        rig, stage = self._setting.rig, self._setting.stage
        stage.speaker.prepare()
        on = yield from wait_for_pedals(rig, stage)
        self._since = rig.clock()
        while on and (planned := self._following()) is not None:
            before = self._known
            turn = yield from self._turn(planned)
            on, menu = turn.on, turn.menu
            if turn.tried.record is not None:
                self._take(turn.tried.record)
                if on and not menu:
                    menu = yield from self._said(planned, before)
                if on and not menu and self._following() is not None:
                    on = yield from self._aside()
            elif not self._records and not turn.tried.asked_for_menu:
                break
            if on and menu:
                pause = yield from self._pause()
                if pause is Pause.HOME:
                    return self._ran(home=True)
                on = pause is Pause.ON
        return self._ran(home=False)

    def _following(self) -> Planned | None:
        if is_given_up(self._records):
            return None
        return self._course.following(self._known, self._sitting)

    def _turn(self, planned: Planned) -> Flow[Turn]:
        """One repetition and the look back at it."""
        setting, session = self._setting, self._sitting
        level, asked = planned.shown, None
        if level.id == self._band.id:
            asked = tolerance_now(self._history, self._band)
            level = with_tolerance(level, asked)
        rng = np.random.default_rng((session.seed, CHANCE, len(session.results)))
        drawn = level.kind.draw(level, setting.passed(level), self._before, rng)
        kept = self._kept.setdefault((level.id, planned.why), SetLog(level, self._history))
        kept.level = level
        task = Assignment(
            level,
            replace(planned, level=drawn).shown,
            session.seed,
            planned.why,
            session.number,
            self._since,
            asked,
            self._target_of(level),
        )
        why = _words(planned.why, asked)
        place = self._place(drawn.kind.title, why)
        turn = yield from take_turn(task, place, kept, self._pictures, setting, rng)
        if turn.tried.record is not None:
            self._before = drawn
        return turn

    def _target_of(self, level: Level) -> int:
        """From 1, whose turn it is among the targets of a level, whatever else comes between.

        On another day it begins with another one.
        """
        played = sum(one.level == level.id and not one.void for one in self._sitting.results)
        return 1 + self._sitting.seed + played

    def _place(self, named: str = "", why: str = "") -> Place:
        session = self._sitting
        number = 1 + sum(not one.void for one in session.results)
        share = min(max(session.left / (60 * session.minutes), 0.0), 1.0)
        return Place(number, 0, named, why, share, session.minutes)

    def _take(self, record: Record) -> None:
        """Take in what was played: what comes next depends on it."""
        self._records.append(replace(record, trace=None))
        self._since += round((record.took or 0.0) * SECOND)
        results = (*self._sitting.results, recent_results(self._history, 1)[-1])
        self._sitting = replace(self._sitting, results=results)
        self._known = self._ask(results[-1].day)

    def _ask(self, day: date) -> PlayerState:
        """What is known of the player now, on a day: that of the newest repetition."""
        setting = self._setting
        return player_state_of(self._history, setting.levels, self._band, setting.rig.there, day)

    def _said(self, planned: Planned, before: PlayerState) -> Flow[bool]:
        """Where a level was shown again, or not today, that is said; whether the menu is wanted."""
        level, day = planned.level, self._known.day
        now = self._known.retention.get(level.id)
        outcome = None if now is None else now.shown_on(day)
        if planned.why is not Purpose.DUE or now == before.retention.get(level.id):
            return False
        if (
            now is None
            or now.due is None
            or outcome not in (CheckOutcome.KEPT, CheckOutcome.NOT_TODAY)
        ):
            return False
        kept = self._kept[level.id, Purpose.DUE]
        records = [record for record in kept.counting if record.at.date() == day]
        whole = len(records) == len(now.first)
        missed = missed_most(record.verdict for record in records) if whole else None
        again = retention_screen.RetentionCheck(
            level.title,
            outcome,
            tuple(Mark.CLEAN if one else Mark.MISSED for one in now.first),
            now.is_kept_well,
            (now.due - day).days,
            "" if missed is None else missed.label,
        )
        pictures = self._pictures.of(level)[-len(records) :] if whole else ()
        screen = retention_screen.RetentionScreen(again, pictures, self._place())
        after = yield from show(screen, self._setting.rig, self._setting.stage)
        return after is TimedOutcome.MENU

    def _aside(self) -> Flow[bool]:
        """The computer is busy, or the foot tires: that is said; whether to go on."""
        rig, stage = self._setting.rig, self._setting.stage
        if is_busy(self._records):
            return (yield from show(Busy(), rig, stage))
        tires = fatigue.fatigue_of(self._scored())
        if tires is None:
            return True
        self._tired_at[tires.kind] = len(self._sitting.results)
        fall = tires.fall * (fatigue.NEWEST - 1)
        called = {level.kind.name: level.kind.title for level in self._setting.levels}
        stop = yield from show(FatigueScreen(called.get(tires.kind, tires.kind), fall), rig, stage)
        if stop:
            self._end()
        return not stop

    def _scored(self) -> list[fatigue.Scored]:
        """What was scored, kind by kind, against the usual score of its level.

        A harder level tires nobody; for the same reason those with nothing shown are left out.
        """
        results = self._sitting.results
        usual = {**fatigue.usual_scores(results, 1), **self._usual}
        return [
            fatigue.Scored(one.kind, one.score - usual[one.level])
            for number, one in enumerate(results)
            if one.counts and one.score is not None and one.why is not Purpose.DARK
            if number >= self._tired_at.get(one.kind, 0)
        ]

    def _pause(self) -> Flow[Pause]:
        """The small menu."""
        done = sum(not one.void for one in self._sitting.results)
        menu = SmallMenu(done, 0, self._place())
        return (yield from show(menu, self._setting.rig, self._setting.stage))

    def _ran(self, *, home: bool) -> SessionLog:
        some = self._sitting.results and not is_given_up(self._records)
        if some and self._following() is None:
            self._end()
        bests = {level: kept.before.top for (level, _), kept in reversed(self._kept.items())}
        return SessionLog(self._sitting, self._known, self._pictures, home, bests)

    def _end(self) -> None:
        """It is over for today."""
        end_session(self._history, self._sitting.number)
        self._sitting = replace(self._sitting, over=True)


def _taken_up(course: SessionRules, setting: Setting, history: History) -> Session:
    """The one of today that was left in the middle, or a new one."""
    now = setting.now()
    found = session_under_way(history, course.what, now.date())
    if found is not None and (found.results or found.minutes == course.minutes):
        return found
    seed = seed_of(now.date())
    number = begin_session(history, course.what, now, course.minutes, seed)
    return Session(number, course.what, now, course.minutes, seed)


def _words(why: Purpose, asked: float | None) -> str:
    """Why a repetition comes; of the steadiness band with the points it is `asked` to stay in."""
    if why is Purpose.BAND and asked is not None:
        return f"steadiness: within {asked:.0f} points"
    return WORDS.get(why, why.value)
