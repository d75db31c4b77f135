"""What faulty pedals do to verdicts, and whether honest ones are left alone.

    python tests/bench/faults.py [REPETITIONS [CLASS ...]]

Two tables, 60 repetitions a row unless told otherwise, of all classes or of those that are named;
`honest` is the second table, with a quarter of the repetitions by each of its feet. Takes about
four minutes on two cores. Each repetition of a simulated foot is judged twice, as its pedals
told it and as it was (`tests/paired_feet.py`). `wrongly clean`: praised, and without the fault it
would not have been; `blamed`: counted as not clean, and without the fault it would have been.
`void` has the reasons that the fault alone led to. A row that misses the goal ends with `!`.
"""

from __future__ import annotations

import sys
from collections import Counter
from collections.abc import Sequence
from concurrent.futures import ProcessPoolExecutor
from dataclasses import dataclass
from functools import partial
from itertools import chain, islice
from pathlib import Path

ROOT = Path(__file__).resolve().parents[2]
sys.path.insert(0, str(ROOT))

from engine.ladder.level_files import SHIPPED, load_levels  # noqa: E402
from tests.bench.fault_cases import FAULTY, HONEST, Case  # noqa: E402
from tests.paired_feet import Pair, pairs  # noqa: E402

LEVELS = {level.id: level for level in load_levels([SHIPPED])}
REPETITIONS = 60
SEED = 19
PROCESSES = 2
PLAYED = (
    ("blip-1-first", 0.2),
    ("blip-1-first", 0.9),
    ("blip-5-still", 0.7),
    ("still-1-light", 0.4),
    ("run-1-two", 0.6),
)
"""Levels of the table of faults, each with the skill of the foot that plays it."""
EVERY = tuple(
    (level, skill)
    for level in ("blip-1-first", "blip-5-still", "still-1-light", "run-1-two")
    for skill in (0.2, 0.5, 0.9)
)
"""Levels and skills that a row of honest hardware is played with."""
MOST_WRONG = {"stalling": 3, "saturating": 3}
"""Most repetitions of 60 that may be wrongly clean, and as many wrongly blamed; 1 elsewhere."""
MOST_VOID, MOST_VOID_SLOW = 0.005, 0.02
"""Largest share of honest repetitions that may be void, of quick pedals and of slow ones."""


@dataclass(frozen=True)
class Row:
    """What came of the repetitions of one row."""

    honest: int
    """Number of repetitions that the foot did cleanly."""
    clean: int
    """Number of repetitions that are clean as the pedals told them."""
    praised: int
    """Number of repetitions that are wrongly clean."""
    blamed: int
    """Number of repetitions that are wrongly not clean."""
    voids: Counter[str]
    """Number of repetitions that the fault made void, by reason."""

    @classmethod
    def of(cls, played: Sequence[Pair]) -> Row:
        """The row of some repetitions."""
        return cls(
            honest=sum(pair.was_clean for pair in played),
            clean=sum(pair.faulty.verdict.clean for pair in played),
            praised=sum(pair.is_wrongly_clean for pair in played),
            blamed=sum(pair.is_wrongly_blamed for pair in played),
            voids=Counter(pair.voided_by.value for pair in played if pair.voided_by),
        )

    def misses(self, name: str, repetitions: int) -> bool:
        """Whether more verdicts are wrong than a fault of this name may lead to."""
        most = MOST_WRONG.get(name, 1) * max(repetitions / REPETITIONS, 1.0)
        return max(self.praised, self.blamed) > most


def played(case: Case, level: str, skill: float, repetitions: int) -> list[Pair]:
    """Repetitions of a level by a foot of some skill, on the pedals of a case."""
    endless = pairs(LEVELS[level], skill, SEED, case.around, case.step)
    return [*islice(endless, repetitions)]


def faulty_row(repetitions: int, job: tuple[int, str, float]) -> Row:
    """Play the row of a fault by its index, with a level and a skill."""
    case, level, skill = job
    return Row.of(played(FAULTY[case], level, skill, repetitions))


def honest_row(repetitions: int, case: int) -> Row:
    """Play the row of honest hardware by its index, so many repetitions by each foot."""
    each = [played(HONEST[case], level, skill, repetitions) for level, skill in EVERY]
    return Row.of([*chain.from_iterable(each)])


def voids_of(found: Row) -> str:
    """The void reasons of a row, most frequent first."""
    return ", ".join(f"{reason} {count}" for reason, count in found.voids.most_common())


def print_faults(pool: ProcessPoolExecutor, repetitions: int, names: Sequence[str]) -> None:
    """Print the table of faults, all or those named."""
    jobs = [
        (index, level, skill)
        for index, case in enumerate(FAULTY)
        if not names or case.name in names
        for level, skill in PLAYED
    ]
    print(f"faulty pedals, {repetitions} repetitions a row")
    print(f"{'':48}{'skill':>20}{'honest':>8}{'clean':>7}{'wrongly clean':>15}{'blamed':>8}  void")
    for (index, level, skill), found in zip(
        jobs, pool.map(partial(faulty_row, repetitions), jobs), strict=True
    ):
        case = FAULTY[index]
        print(
            f"{case.name:11}{case.strength:34}{level:14}{skill:9g}{found.honest:8}{found.clean:7}"
            f"{found.praised:15}{found.blamed:8}  {voids_of(found)}"
            f"{' !' if found.misses(case.name, repetitions) else ''}",
            flush=True,
        )


def print_honest(pool: ProcessPoolExecutor, repetitions: int) -> None:
    """Print the table of honest hardware, so many repetitions by each foot."""
    total = len(EVERY) * repetitions
    print(f"\nhonest hardware, {total} repetitions a row, feet of every skill on four levels")
    print(f"{'':74}{'void':>7}{'wrongly clean':>15}{'blamed':>8}  void")
    for case, found in zip(
        HONEST, pool.map(partial(honest_row, repetitions), range(len(HONEST))), strict=True
    ):
        share = found.voids.total() / total
        misses = share > (MOST_VOID_SLOW if case.slow else MOST_VOID)
        print(
            f"{case.name:18}{case.strength:56}{share:7.1%}{found.praised:15}{found.blamed:8}"
            f"  {voids_of(found)}{' !' if misses else ''}",
            flush=True,
        )


def main() -> None:
    """Print both tables."""
    repetitions = int(sys.argv[1]) if len(sys.argv) > 1 else REPETITIONS
    names = sys.argv[2:]
    with ProcessPoolExecutor(PROCESSES) as pool:
        if names != ["honest"]:
            print_faults(pool, repetitions, names)
        if not names or "honest" in names:
            print_honest(pool, max(repetitions // 4, 1))


if __name__ == "__main__":
    main()
