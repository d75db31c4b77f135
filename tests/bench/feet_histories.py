"""Histories of the feet in faulty_feet.py and sensing_feet.py, as the program stores them."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from contextlib import contextmanager
from dataclasses import dataclass
from datetime import UTC, date, datetime, timedelta
from pathlib import Path
from tempfile import TemporaryDirectory

from drills.fault import Fault
from drills.level import Level
from drills.score import Verdict
from drills.task import Task
from engine.five.player_history import with_tolerance
from engine.ladder.level_files import SHIPPED, load_band, load_levels
from engine.practice.results import Purpose
from engine.practice.steadiness import SteadinessBlip, next_tolerance
from engine.store import History, Record, open_history
from engine.store.repetitions import add_repetition
from tests.bench.faulty_feet import FaultyFoot
from tests.bench.faulty_traces import Played, Player
from tests.bench.sensing_feet import SensingFoot

FIRST = datetime(2024, 3, 1, 18, tzinfo=UTC)
TURNS = (Purpose.BAND, Purpose.LEARN, Purpose.MIX, Purpose.LEARN) * 3
"""What the blips of five minutes are for, in order: about what the planner mixes."""
REVIEWED = 6
"""Passed levels that are reviewed, as a count: the newest."""
BAND = load_band()
LEVELS = load_levels([SHIPPED])
WHOLE = ("braking zones", "by itself")
"""Stages that put the pieces together: a zone says nothing of a brake left light or heavy."""
WITH_BLIPS = tuple(
    one
    for one in LEVELS
    if "blip.size" in one.own and one.own.get("blips", 1) and one.stage not in WHOLE
)
"""Levels of the ladder with blips, the easiest first, up to the pieces put together."""
SQUEEZES = tuple(one for one in LEVELS if one.kind.name == "squeeze")
"""Levels of the ladder that ask for squeezes, the easiest first."""


@dataclass(frozen=True)
class Entered:
    """One repetition that was stored."""

    level: Level
    """Level that was played."""
    truth: Fault | None
    """Fault that the foot had in it."""
    verdict: Verdict
    """What the program says of it."""


def practised(
    foot: FaultyFoot, history: History, blips: int, turns: Sequence[Purpose] = TURNS
) -> Iterator[Entered]:
    """Play so many repetitions with blips that count into a history, void ones in between.

    `turns` says what those of a day are for, in order. The foot learns a level as far up the ladder
    as its skill, reviews those before it, and plays the staircase of the steadiness drill.
    """
    player = Player(foot)
    place = 2 + round(foot.skill * (len(WITH_BLIPS) - 3))
    learned, passed = WITH_BLIPS[place], WITH_BLIPS[max(place - REVIEWED, 0) : place]
    staircase: list[SteadinessBlip] = []
    counted = played = 0
    while counted < blips:
        day, turn = divmod(counted, len(turns))
        why = turns[turn]
        asked = round(next_tolerance(staircase), 1) if why is Purpose.BAND else None
        level = learned
        if asked is not None:
            level = with_tolerance(BAND, asked)
        elif why is Purpose.MIX:
            level = passed[int(player.rng.integers(len(passed)))]
        done = player.play(level, played + 1)
        played += 1
        at = moment(day, played)
        add_repetition(history, recorded(level, done.task, done.verdict, at, why, asked))
        yield Entered(level, done.motion.fault, done.verdict)
        if not done.verdict.void:
            counted += 1
            if asked is not None and done.verdict.measures.get("dip") is not None:
                staircase.append(_on_staircase(asked, done, at.date()))


def squeezed(foot: SensingFoot, history: History, level: Level, squeezes: int) -> Iterator[Entered]:
    """Play so many squeezes of a level into a history, six a day."""
    for number in range(squeezes):
        day, place = divmod(number, 6)
        task, verdict = foot.squeeze(level, place + 1, day)
        at = moment(day, place)
        add_repetition(history, recorded(level, task, verdict, at, Purpose.LEARN))
        yield Entered(level, None, verdict)


def recorded(
    level: Level,
    task: Task,
    verdict: Verdict,
    at: datetime,
    why: Purpose = Purpose.CHOSEN,
    asked: float | None = None,
) -> Record:
    """Record of one repetition by feet, without its trace."""
    return Record(
        level=level.id,
        kind=level.kind.name,
        source="pedals",
        feet=True,
        at=at,
        target=task.target,
        tolerance=level.tolerance,
        verdict=verdict,
        trace=None,
        dark=None,
        cues=(),
        sampling=None,
        calibration=None,
        rule=level.rule,
        why=why,
        asked=asked,
    )


@contextmanager
def a_history() -> Iterator[History]:
    """A history of its own in a folder that is removed."""
    with TemporaryDirectory() as folder, open_history(Path(folder), []) as history:
        yield history


def moment(day: int, repetition: int) -> datetime:
    """When a repetition of a day ended, both by their numbers."""
    return FIRST + timedelta(days=day, seconds=20 * repetition)


def _on_staircase(asked: float, done: Played, day: date) -> SteadinessBlip:
    verdict = done.verdict
    furthest = max(verdict.amount("dip"), verdict.amount("surge"))
    return SteadinessBlip(day, asked, furthest, verdict.amount("peak"))
