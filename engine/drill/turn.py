"""`take_turn`: plays and stores one repetition of a set, then shows its reveal or a summary."""

from __future__ import annotations

from collections import deque
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from itertools import takewhile

import numpy as np

from drills.deviation import Deviation
from drills.level import Level
from drills.score import OF_THE_PEDALS, Reason
from engine.drill.attempt import (
    Assignment,
    Attempt,
    Setting,
    play_repetition,
    wait_for_pedals,
)
from engine.drill.count_trouble import TROUBLES, CountTroubleMenu
from engine.drill.guess_screen import Guess, NoGuess
from engine.drill.interruptions import Busy
from engine.drill.off_size import OffSize
from engine.drill.pedal_trouble import PedalTrouble, Remedy
from engine.drill.replays import replays_of
from engine.drill.reveal import Reveal
from engine.drill.reveal_facts import RevealFacts
from engine.drill.reveal_words import of_limit_words
from engine.drill.set_log import SetLog
from engine.drill.summary import Summary
from engine.drill.tally import mark_of, recent_repetitions
from engine.drill.verdict_sound import sound_verdict
from engine.kit.base import Place
from engine.kit.flow import show
from engine.kit.timed_screen import TimedOutcome
from engine.practice.passes import reveals, sums_up
from engine.practice.results import Purpose
from engine.stage.scene import Flow
from engine.store import Record

EARLIER_SHOWN = 5
"""Number of earlier repetitions whose curves are drawn faintly in a reveal."""
MOST_VOID = 10
"""Number of void repetitions in a row after which a set is given up."""
LOST_IN_A_ROW = 3
"""Number of repetitions in a row lost to gaps, to the same fault of the pedals, to blips off the
size asked or to the counting, after which a screen says what helps."""
MOST_PICTURES = 50
"""Largest number of pictures of a level that are held, the newest ones, for the end of a set: only
a demo's set is longer."""


@dataclass(frozen=True)
class Turn:
    """Result of one turn: a repetition and the look back at it."""

    attempt: Attempt
    """The repetition that was played in this turn."""
    may_continue: bool
    """Whether another turn may follow: False if the player left while pedals were unplugged."""
    asked_for_menu: bool
    """Whether the player asked for the menu."""


class Pictures:
    """Newest pictures of the repetitions that counted, grouped by the level that was played."""

    def __init__(self) -> None:
        self._pictures: dict[str, deque[Deviation]] = {}

    def add(self, attempt: Attempt) -> None:
        """Add the picture of a repetition, if it has one and counted."""
        if attempt.picture is not None and attempt.record and not attempt.record.verdict.void:
            pictures = self._pictures.setdefault(attempt.level.id, deque(maxlen=MOST_PICTURES))
            pictures.append(attempt.picture)

    def of(self, level: Level) -> Sequence[Deviation]:
        """Newest pictures of the repetitions of a level, oldest first."""
        return list(self._pictures.get(level.id, ()))


def take_turn(
    assignment: Assignment,
    place: Place,
    log: SetLog,
    earlier: Pictures,
    setting: Setting,
    rng: np.random.Generator,
) -> Flow[Turn]:
    """Play a repetition, store it if anything was asked, and show its reveal or a summary.

    `log` stores the record, `earlier` has the pictures of earlier repetitions. Raises StoreError.
    """
    attempt = yield from play_repetition(assignment, place, setting, rng)
    on, menu = True, attempt.left
    if attempt.record is not None:
        log.add(attempt.record)
        place = place.after(attempt.record.took or 0.0, mark_of(attempt.record.verdict))
        on, menu = yield from _look_back(attempt, place, log, earlier, setting)
        earlier.add(attempt)
    return Turn(attempt, on, menu)


def is_given_up(records: Sequence[Record]) -> bool:
    """Whether so many repetitions in a row were void that the set is given up."""
    latest: Iterator[Record] = reversed(records)
    return sum(1 for _ in takewhile(lambda record: record.verdict.void, latest)) >= MOST_VOID


def warn_of_lost(records: Sequence[Record], level: Level, setting: Setting) -> Flow[bool]:
    """Say so where one reason has just voided LOST_IN_A_ROW repetitions in a row, or a multiple.

    It is a gap, as the computer is busy, what the pedals did, which may be checked then, the size
    of the blips that `level` asks, or the counting. Returns whether the player goes on.
    """
    rig, stage = setting.rig, setting.stage
    reason = _lost_by(records)
    if reason is None:
        return True
    if reason is Reason.GAP:
        return (yield from show(Busy(), rig, stage))
    if reason in TROUBLES:
        return (yield from show(CountTroubleMenu(reason), rig, stage))
    if reason is Reason.OFF_SIZE:
        peaks = [record.verdict.amount("peak") for record in records[-LOST_IN_A_ROW:]]
        return (yield from show(OffSize(level, peaks), rig, stage))
    pedal = records[-1].verdict.pedal or "pedal"
    check = setting.check_pedals
    screen = PedalTrouble(reason, pedal, can_check=check is not None)
    remedy = yield from show(screen, rig, stage)
    if remedy is Remedy.CHECK and check is not None:
        yield from check(rig, stage)
    return remedy is not Remedy.LEAVE


def _lost_by(records: Sequence[Record]) -> Reason | None:
    """Reason that has just voided LOST_IN_A_ROW repetitions in a row; None if none has."""
    reason = records[-1].verdict.reason if records else None
    if reason not in OF_THE_PEDALS | {Reason.GAP, Reason.OFF_SIZE, *TROUBLES}:
        return None
    latest: Iterator[Record] = reversed(records)
    lost = sum(1 for _ in takewhile(lambda record: record.verdict.reason is reason, latest))
    return reason if lost % LOST_IN_A_ROW == 0 else None


def _look_back(
    attempt: Attempt, place: Place, log: SetLog, earlier: Pictures, setting: Setting
) -> Flow[tuple[bool, bool]]:
    """After a repetition: ask for a guess, announce the verdict, show a reveal or a summary.

    Returns whether the set continues, and whether the player asked for the menu.
    """
    rig, stage, record, level = setting.rig, setting.stage, log.records[-1], attempt.level
    verdict = record.verdict
    guess: float | None = None
    if not attempt.left and setting.asks_guesses and level.guess:
        guess = verdict.measures.get(level.kind.guess_measure)
    if guess is not None and not verdict.void:
        answer = yield from show(Guess(level.kind.guess_question, place), rig, stage)
        if isinstance(answer, NoGuess):
            log.announce(place, stage)
            return True, True
        guess = answer
        log.add_guess(guess, level.kind.guess_measure)
    log.announce(place, stage)
    sound_verdict(attempt, log, stage.speaker)
    if attempt.left:
        return True, True
    if not (yield from wait_for_pedals(rig, stage)):
        return False, False
    after = TimedOutcome.ON
    if verdict.void or guess is not None or reveals(log.level, verdict.clean):
        before = earlier.of(level)[-EARLIER_SHOWN:]
        facts = RevealFacts(
            level,
            verdict,
            attempt.picture,
            before,
            place,
            record.sampling,
            guess,
            record.jumps,
            of_limit_words(level, verdict) if record.why is Purpose.OWN else "",
            is_luck=level.id in setting.lucky,
            repeats=log.remarks.repeats(level.kind.remark(level, verdict)),
            replays=replays_of(attempt, log.number, setting),
        )
        after = yield from show(Reveal(facts), rig, stage)
    elif sums_up(log.level, log.counted):
        recent = recent_repetitions(log.counting[-log.level.summary :], setting.levels)
        pictures = list(earlier.of(log.level))
        if attempt.picture is not None and level.id == log.level.id:
            pictures.append(attempt.picture)
        summary = Summary(log.level, recent, pictures[-len(recent.marks) :], place)
        after = yield from show(summary, rig, stage)
    return True, after is TimedOutcome.MENU
