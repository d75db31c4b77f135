"""How often the fault of a foot is told, and how often a wrong one or one that is not there.

    python tests/bench/diagnosis.py [BLIPS [PLAYERS]]

Simulated feet play BLIPS blips (25) of each fault, skill and level, and as many good ones twice; a
player draws from them at random, PLAYERS of them (400) for each line. A quarter of a player's blips
are steadiness blips, the rest are of the levels that one of that skill plays. Three tables:

One fault in 60 % of the blips, the others good: how often it was told by the 40th blip, looked for
after 20, 30 and 40; how often a wrong one was; and the share of spoiled blips that are counted as
that fault, and as any other.

Feet without a fault but for their rare slips: how often one is told at the 40th blip, and in 60
days of 15 blips with a look at each end of a session; how often the fault worked on changes.

Feet that learn from a beginner to an expert in 60 days: which faults they are told, and when.

Measured with 25 blips and 400 players: a fault is told in 85 % (early roll, skill 0.6) to 99 %, a
wrong one in none, and one that is not there in none. Of feet without a fault one is told at the
40th blip in none at skill 0.75 and 1, nor in 60 days. At skill 0.5 every fourth blip is a dip over
11 points: that is told in 5 % at the 40th blip and in 96 % within 60 days, and what is worked on
changes 3.2 times, 7 at most. Beginners are told the dip in 94 % and more, as is true of them. Feet
that learn are told the dip and nothing else, and it is over half-way. On a way down no finish and
no overshoot is found, as a blip is measured against its chord there.
"""

from __future__ import annotations

import sys
from collections import Counter
from collections.abc import Sequence
from concurrent.futures import ProcessPoolExecutor
from dataclasses import dataclass
from datetime import date, timedelta
from itertools import islice
from pathlib import Path

import numpy as np

ROOT = Path(__file__).resolve().parents[2]
sys.path.insert(0, str(ROOT))

from drills.fault import Fault  # noqa: E402
from drills.foot import SimulatedFoot  # noqa: E402
from drills.trace import nanoseconds  # noqa: E402
from engine.ladder.level_files import SHIPPED, load_band, load_levels  # noqa: E402
from engine.practice.diagnosis import NEWEST, diagnose  # noqa: E402
from engine.practice.focus import Focus, FocusChange, FocusStep, focus_step  # noqa: E402
from tests.bench.faulty_foot import FaultyFoot  # noqa: E402
from tests.simulated_repetitions import played_by  # noqa: E402

BLIPS, PLAYERS = 25, 400
SHARE = 0.6  # of the blips have the fault
STEADINESS = 0.25  # of the blips are of the steadiness drill
LOOKS = (20, 30, 40)  # blips after which a fault is looked for
DAYS, A_DAY = 60, 15
SPOILED, SLIPPING = 7, 3  # seeds of the feet
REPORTS = nanoseconds(0.004)  # between two readings of the pedals
DAY = date(2024, 5, 1)
BAND = load_band()
LEVELS = {level.id: level for level in (*load_levels([SHIPPED]), BAND)}
STUDIED = ("blip-1-first", "blip-3-good", "quiet-five", "run-2-three", "ease-4-guess")
FAULTY = {0.6: STUDIED, 0.9: STUDIED}
"""Levels that a foot with a fault plays, by its skill."""
WITHOUT = {
    0.0: ("blip-0-roll", "blip-1-first"),
    0.25: ("blip-0-roll", "blip-1-first", "blip-3-good"),
    0.5: ("blip-1-first", "blip-3-good", "run-1-two", "clutch-2-quiet"),
    0.75: ("blip-3-good", "quiet-five", "run-1-two", "ease-4-guess"),
    1.0: ("blip-5-still", "run-4-quick", "ease-4-guess", "clutch-2-quiet"),
}
"""Levels that a foot without a fault plays, by its skill."""
Blips = Sequence[Fault | None]
"""Faults of blips that were found, an entry each."""


@dataclass(frozen=True)
class Cell:
    """Blips of one foot on one level."""

    level: str
    """Id of the level."""
    skill: float
    """Skill of the foot, from 0 to 1."""
    spoiled: Fault | None
    """Fault of every blip; None for a foot without one."""
    slips: bool
    """Whether the foot slips now and then, as feet do."""
    blips: int
    """Repetitions that count, as a count; fewer where two in three are void."""

    def found(self) -> list[Fault | None]:
        """Fault found in each blip that counts, in order."""
        seed = SLIPPING if self.slips else SPOILED
        faulty = FaultyFoot(self.skill, seed, self.spoiled)
        foot = SimulatedFoot(self.skill, seed) if self.slips else faulty
        level = LEVELS[self.level]
        played = islice(played_by(foot, level, seed, (), REPORTS), 3 * self.blips)
        counted = (record.verdict for record in played if not record.verdict.void)
        found = [(level.kind.fault(one), one) for one in islice(counted, self.blips)]
        return [fault for fault, one in found if fault is not None or "dip" in one.measures]


def cells(blips: int) -> list[Cell]:
    """Everything that is played."""
    names = {skill: (*levels, BAND.id) for skill, levels in FAULTY.items()}
    faulty = [
        Cell(name, skill, fault, False, blips if fault else 2 * blips)
        for skill, levels in names.items()
        for name in levels
        for fault in (None, *Fault)
    ]
    return faulty + [
        Cell(name, skill, None, True, 2 * blips)
        for skill, levels in WITHOUT.items()
        for name in (*levels, BAND.id)
    ]


Key = tuple[str, float, Fault | None, bool]
"""Level, skill, fault and slips of a cell."""
Bank = dict[Key, list[Fault | None]]
"""Faults that were found in blips, by where they were played."""


def drawn(
    bank: Bank, rng: np.random.Generator, skill: float, fault: Fault | None, *, slips: bool
) -> Fault | None:
    """Fault found in one blip of a player, drawn from those played."""
    levels = (WITHOUT if slips else FAULTY)[skill]
    while True:
        level = BAND.id if rng.random() < STEADINESS else levels[int(rng.integers(len(levels)))]
        found = bank[level, skill, fault if rng.random() < SHARE else None, slips]
        # A blip that is off the size that steadiness asks for is repeated.
        if found:
            return found[int(rng.integers(len(found)))]


def with_a_fault(bank: Bank, players: int) -> None:
    """Print how often a fault is told, by skill."""
    print(f"{'skill  fault':16}{'told':>7}{'wrong':>7}{'  of its blips':>14}{'another':>9}")
    for skill in FAULTY:
        for fault in (None, *Fault):
            rng = np.random.default_rng(1)
            told = wrong = 0
            for _ in range(players):
                blips = [drawn(bank, rng, skill, fault, slips=False) for _ in range(NEWEST)]
                looked = [found for count in LOOKS if (found := diagnose(blips[:count]))]
                told += bool(looked) and looked[0].fault is fault
                wrong += any(found.fault is not fault for found in looked)
            spoiled = [
                found
                for (_, *played), blips in bank.items()
                if played == [skill, fault, False]
                for found in blips
            ]
            other = sum(found not in (fault, None) for found in spoiled) / len(spoiled)
            own = sum(found is fault for found in spoiled) / len(spoiled)
            print(
                f"{skill:<7g}{fault or 'none':9}{told / players:7.1%}{wrong / players:7.1%}"
                f"{own:14.0%}{other:9.0%}",
                flush=True,
            )


def without(bank: Bank, players: int) -> None:
    """Print how often one is told of feet without a fault, at once and in 60 days."""
    print(f"\n{'skill':7}{'at 40':>8}{'in 60 days':>12}{'changes':>9}{'most':>6}   told in 60 days")
    for skill in WITHOUT:
        rng = np.random.default_rng(2)
        at_once, changes = 0, []
        told: Counter[str] = Counter()
        for _ in range(players // 4):
            blips = [drawn(bank, rng, skill, None, slips=True) for _ in range(DAYS * A_DAY)]
            at_once += diagnose(blips[:NEWEST]) is not None
            course = course_of(blips)
            changes.append(len(course))
            told.update({focus.fault.value for _, focus in course if focus})
        ever = sum(count > 0 for count in changes) / len(changes)
        print(
            f"{skill:<7g}{at_once / (players // 4):8.1%}{ever:12.0%}{np.mean(changes):9.1f}"
            f"{max(changes):6}   {dict(told)}",
            flush=True,
        )


def course_of(blips: Blips) -> list[tuple[int, Focus | None]]:
    """Days on which the fault worked on changed, from 0, each with the one worked on then."""
    step = FocusStep(FocusChange.NONE, None)
    changed: list[tuple[int, Focus | None]] = []
    for day in range(DAYS):
        for seen in (A_DAY * day, A_DAY * (day + 1)):
            step = focus_step(step.now, blips[:seen], DAY + timedelta(day), step.halved)
            if step.change is not FocusChange.NONE:
                changed.append((day, step.now))
    return changed


def learning(bank: Bank, players: int) -> None:
    """Print what feet are told that learn from beginner to expert."""
    rng = np.random.default_rng(3)
    skills = np.array(list(WITHOUT))
    told: Counter[str] = Counter()
    changes, ends = [], []
    for _ in range(players // 4):
        blips = []
        for number in range(DAYS * A_DAY):
            place = number / (DAYS * A_DAY) * (len(skills) - 1)
            skill = skills[int(place) + (rng.random() < place % 1)]
            blips.append(drawn(bank, rng, float(skill), None, slips=True))
        course = course_of(blips)
        told.update({focus.fault.value for _, focus in course if focus})
        changes.append(len(course))
        ends.append(course[-1][0] if course and course[-1][1] is None else DAYS)
    print(f"\nlearning in {DAYS} days: told {dict(told)} of {players // 4}")
    print(f"changes {np.mean(changes):.1f}, most {max(changes)}; over on day {np.median(ends):.0f}")


def main() -> None:
    """Print the three tables."""
    blips = int(sys.argv[1]) if len(sys.argv) > 1 else BLIPS
    players = int(sys.argv[2]) if len(sys.argv) > 2 else PLAYERS
    played = cells(blips)
    with ProcessPoolExecutor() as pool:
        found = list(pool.map(Cell.found, played))
    keys = [(cell.level, cell.skill, cell.spoiled, cell.slips) for cell in played]
    bank = dict(zip(keys, found, strict=True))
    with_a_fault(bank, players)
    without(bank, players)
    learning(bank, players)


if __name__ == "__main__":
    main()
