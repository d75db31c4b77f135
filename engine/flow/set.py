"""One set of a level: the same for the game, the demo in the window and the headless demo."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from itertools import takewhile

import numpy as np

from drills.deviation import Deviation
from drills.level import Level
from drills.score import Reason
from engine.flow import show
from engine.flow.attempt import Asked, Attempt, Setting, attempt, wait_for_pedals
from engine.flow.tally import Kept, summed_up, tally_of
from engine.practice.progress import reveals, sums_up
from engine.screens.base import Place
from engine.screens.busy import Busy
from engine.screens.guess import Guess, Unsaid
from engine.screens.passing import After
from engine.screens.pause import Pause, SmallMenu
from engine.screens.reveal import Reveal
from engine.screens.setend import SetEnd, Then
from engine.screens.summary import Summary
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
SEEDS = 2**62
"""1, how many seeds there are for the chance of a set."""


@dataclass(frozen=True)
class Played:
    """A set that was played."""

    kept: Kept
    """What came of it."""
    home: bool
    """Whether the player wants home now and not to see how it went."""


def run_set(level: Level, setting: Setting, repetitions: int) -> Flow[Played]:
    """Repetitions until so many counted, each kept as it ends.

    One that does not count is followed by another of the same number. The set ends early when
    the player leaves it, or when many in a row do not count. The chance in repetition k (from 0)
    of those kept comes from the pair of the seed of the set and k.
    """
    rig, stage = setting.rig, setting.stage
    stage.speaker.prepare()
    seed = int(setting.rng.integers(SEEDS))
    passed = setting.passed(level)
    kept, earlier = Kept(level, setting.history), _Pictures()
    before: Level | None = None
    on = yield from wait_for_pedals(rig, stage)
    while on and _goes_on(kept.records, repetitions):
        place = Place(kept.counted + 1, repetitions)
        rng = np.random.default_rng((seed, len(kept.records)))
        asked = Asked(level, level.kind.draw(level, passed, before, rng), seed)
        tried = yield from attempt(asked, place, setting, rng)
        menu = tried.left
        if tried.record is not None:
            before = asked.drawn
            kept.add(tried.record)
            on, menu = yield from _look_back(tried, place, kept, earlier, setting)
            earlier.add(tried)
        elif not kept.records and not tried.asked_for_menu:
            break
        if on and not menu and _is_busy(kept.records):
            on = yield from show(Busy(), rig, stage)
        if menu:
            pause = yield from show(SmallMenu(kept.counted, repetitions), rig, stage)
            if pause is Pause.HOME:
                return Played(kept.with_pictures(earlier.of(level)), home=True)
            on = pause is Pause.ON
    kept.given_up = _is_given_up(kept.records)
    return Played(kept.with_pictures(earlier.of(level)), home=False)


def end_set(
    level: Level, following: Level, kept: Kept, setting: Setting, *, home_first: bool = False
) -> Flow[Level | Then]:
    """How the set went; a level to go on with, be it `following`, or Then.HOME."""
    tally = tally_of(kept, setting.now)
    if tally.passed_now:
        setting.stage.speaker.passed()
    elif tally.is_beaten:
        setting.stage.speaker.best()
    screen = SetEnd(level, tally, following, kept.pictures, home_first=home_first)
    return (yield from show(screen, setting.rig, setting.stage))


class _Pictures:
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


def _look_back(
    tried: Attempt, place: Place, kept: Kept, earlier: _Pictures, setting: Setting
) -> Flow[tuple[bool, bool]]:
    """What follows a repetition that was kept: a guess, its verdict, its reveal or a summary.

    Whether the set goes on, and whether the menu is asked for.
    """
    rig, stage, record, level = setting.rig, setting.stage, kept.records[-1], tried.level
    verdict = record.verdict
    guess: float | None = None
    if not tried.left and setting.asks_guesses and level.guess:
        guess = verdict.measures.get(level.kind.guessed)
    if guess is not None and not verdict.void:
        said = yield from show(Guess(level.kind.asks, place), rig, stage)
        if isinstance(said, Unsaid):
            kept.tell(place, stage)
            return True, True
        guess = said
        kept.keep_guess(guess, level.kind.guessed)
    kept.tell(place, stage)
    if tried.left:
        return True, True
    if not (yield from wait_for_pedals(rig, stage)):
        return False, False
    after = After.ON
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
    return True, after is After.MENU


def _goes_on(kept: Sequence[Record], repetitions: int) -> bool:
    """Whether another repetition follows those that were kept."""
    counted = sum(not record.verdict.void for record in kept)
    return counted < repetitions and not _is_given_up(kept)


def _is_given_up(kept: Sequence[Record]) -> bool:
    """Whether too many in a row did not count for another try to make sense."""
    latest: Iterator[Record] = reversed(kept)
    return sum(1 for _ in takewhile(lambda record: record.verdict.void, latest)) >= MOST_VOID


def _is_busy(kept: Sequence[Record]) -> bool:
    """Whether the newest repetitions were lost to gaps, and the count of them says so anew."""
    latest: Iterator[Record] = reversed(kept)
    lost = sum(1 for _ in takewhile(lambda one: one.verdict.reason is Reason.GAP, latest))
    return lost > 0 and lost % BUSY_AFTER == 0
