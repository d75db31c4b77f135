"""One turn: a repetition, kept as it ends, and the look back at it."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from itertools import takewhile

import numpy as np

from drills.deviation import Deviation
from drills.level import Level
from drills.score import Reason
from engine.drill.attempt import Assignment, Attempt, Setting, attempt, wait_for_pedals
from engine.drill.guess_screen import Guess, Unsaid
from engine.drill.reveal import Reveal
from engine.drill.summary import Summary
from engine.drill.tally import SetLog, summed_up
from engine.kit.base import Place
from engine.kit.flow import show
from engine.kit.timed_screen import TimedOutcome
from engine.practice.passes import reveals, sums_up
from engine.stage.scene import Flow
from engine.store import Record

EARLIER_SHOWN = 5
"""count of earlier repetitions shown faintly at the reveal."""
MOST_VOID = 10
"""count of repetitions in a row that do not count, after which a set is given up."""
BUSY_AFTER = 3
"""count of repetitions in a row lost to gaps, after which the computer is taken to be busy."""
MOST_PICTURES = 50
"""count of the newest pictures that are kept for the end of a set: a level has no more."""


@dataclass(frozen=True)
class Turn:
    """A turn that was taken."""

    tried: Attempt
    """The repetition."""
    on: bool
    """Whether another may follow: the pedals are there."""
    menu: bool
    """Whether the player asks for the menu."""


class Pictures:
    """The pictures of the repetitions that counted, level by level as they were drawn."""

    def __init__(self) -> None:
        self._kept: dict[str, list[Deviation]] = {}

    def add(self, tried: Attempt) -> None:
        """Take that of one more repetition, where it has one and counted."""
        if tried.picture is not None and tried.record and not tried.record.verdict.void:
            self._kept.setdefault(tried.level.id, []).append(tried.picture)

    def of(self, level: Level) -> Sequence[Deviation]:
        """Those of a level, the newest last."""
        return self._kept.get(level.id, [])[-MOST_PICTURES:]

    @property
    def most_of(self) -> str:
        """Id of the level that there are most of; empty where there are none."""
        return max(self._kept, key=lambda name: len(self._kept[name]), default="")


def take_turn(
    asked: Assignment,
    place: Place,
    kept: SetLog,
    earlier: Pictures,
    setting: Setting,
    rng: np.random.Generator,
) -> Flow[Turn]:
    """Play a repetition and look back at it; it is kept where anything was asked."""
    tried = yield from attempt(asked, place, setting, rng)
    on, menu = True, tried.left
    if tried.record is not None:
        kept.add(tried.record)
        place = place.after(tried.record.took or 0.0)
        on, menu = yield from _look_back(tried, place, kept, earlier, setting)
        earlier.add(tried)
    return Turn(tried, on, menu)


def is_given_up(kept: Sequence[Record]) -> bool:
    """Whether too many in a row did not count for another try to make sense."""
    latest: Iterator[Record] = reversed(kept)
    return sum(1 for _ in takewhile(lambda record: record.verdict.void, latest)) >= MOST_VOID


def is_busy(kept: Sequence[Record]) -> bool:
    """Whether the newest repetitions were lost to gaps, and the count of them says so anew."""
    latest: Iterator[Record] = reversed(kept)
    lost = sum(1 for _ in takewhile(lambda one: one.verdict.reason is Reason.GAP, latest))
    return lost > 0 and lost % BUSY_AFTER == 0


def _look_back(
    tried: Attempt, place: Place, kept: SetLog, earlier: Pictures, setting: Setting
) -> Flow[tuple[bool, bool]]:
    """What follows a repetition that was kept: a guess, its verdict, its reveal or a summary.

    Whether the set goes on, and whether the menu is asked for.
    """
    rig, stage, record, level = setting.rig, setting.stage, kept.records[-1], tried.level
    verdict = record.verdict
    guess: float | None = None
    if not tried.left and setting.asks_guesses and level.guess:
        guess = verdict.measures.get(level.kind.guess_measure)
    if guess is not None and not verdict.void:
        said = yield from show(Guess(level.kind.guess_question, place), rig, stage)
        if isinstance(said, Unsaid):
            kept.tell(place, stage)
            return True, True
        guess = said
        kept.keep_guess(guess, level.kind.guess_measure)
    kept.tell(place, stage)
    if tried.left:
        return True, True
    if not (yield from wait_for_pedals(rig, stage)):
        return False, False
    after = TimedOutcome.ON
    if verdict.void or guess is not None or reveals(kept.level, verdict.clean):
        seen = earlier.of(level)[-EARLIER_SHOWN:]
        reveal = Reveal(level, verdict, tried.picture, seen, place, record.sampling, guess)
        after = yield from show(reveal, rig, stage)
    elif sums_up(kept.level, kept.counted):
        few = summed_up(kept.counting[-kept.level.summary :], setting.levels)
        pictures = list(earlier.of(kept.level))
        if tried.picture is not None and level.id == kept.level.id:
            pictures.append(tried.picture)
        summary = Summary(kept.level, few, pictures[-len(few.marks) :], place)
        after = yield from show(summary, rig, stage)
    return True, after is TimedOutcome.MENU
