"""What a coach would tell feet whose one fault is known.

    python tests/bench/coach_judged.py [FEET]

FEET of each fault, and three times as many without one, play 60 blips in the planner's mix of
levels into a history of their own; what would be told is asked after 20, 30 and 40 blips, and after
60. The table ends with its goals. The feet are made apart from the rules that judge them.
"""

from __future__ import annotations

import sys
from collections import Counter
from collections.abc import Callable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from pathlib import Path

ROOT = Path(__file__).resolve().parents[2]
sys.path.insert(0, str(ROOT))

from drills.fault import Fault  # noqa: E402
from engine.practice.diagnosis import diagnose  # noqa: E402
from engine.store import History  # noqa: E402
from engine.store.faults import newest_faults  # noqa: E402
from tests.bench.faulty_feet import FaultyFoot, feet  # noqa: E402
from tests.bench.feet_histories import a_history, practised  # noqa: E402

FEET = 10
LOOKS = (20, 30, 40, 60)
"""Blips after which is asked what would be told, as counts."""
SKILLS = (0.2, 0.5, 0.8)
"""Skills of the feet, in turn."""
BLIPS = 40
"""Blips within which a fault is to be told, as a count."""

Coach = Callable[[History], Fault | None]
"""Fault that would be told of a history; None: nothing."""


@dataclass(frozen=True)
class Heard:
    """What one foot is told."""

    foot: FaultyFoot
    """The foot."""
    told: Mapping[int, Fault | None]
    """Fault that is told after so many blips; None where nothing is."""
    read: Counter[tuple[Fault | None, Fault | None]]
    """How often a blip with one fault was read as having another, as counts."""

    def within(self, blips: int) -> set[Fault]:
        """Faults that were told at any look up to so many blips."""
        looks = (fault for look, fault in self.told.items() if look <= blips)
        return {fault for fault in looks if fault is not None}


def by_diagnosis(history: History) -> Fault | None:
    """What the program's own diagnosis tells."""
    told = diagnose([fault for _, fault in newest_faults(history)])
    return None if told is None else told.fault


def heard(foot: FaultyFoot, coach: Coach = by_diagnosis, looks: Sequence[int] = LOOKS) -> Heard:
    """What a foot is told at each look, after so many blips that count."""
    told: dict[int, Fault | None] = {}
    read = Counter[tuple[Fault | None, Fault | None]]()
    counted = 0
    with a_history() as history:
        for entered in practised(foot, history, max(looks)):
            if entered.verdict.void:
                continue
            counted += 1
            read[entered.truth, entered.level.kind.fault(entered.verdict)] += 1
            if counted in looks:
                told[counted] = coach(history)
    return Heard(foot, told, read)


def fault_lines(all_heard: Sequence[Heard]) -> Iterator[str]:
    """Table of what is told, a line for each fault and one for the feet without."""
    yield f"{'fault':10}{'feet':>6}" + "".join(f"{f'by {look}':>8}" for look in LOOKS) + "   wrong"
    right = wrong = of = 0
    for fault in Fault:
        mine = [one for one in all_heard if one.foot.fault is fault]
        by = [sum(fault in one.within(look) for one in mine) for look in LOOKS]
        others = Counter(one for each in mine for one in each.within(BLIPS) - {fault})
        right += by[LOOKS.index(BLIPS)]
        wrong += sum(bool(one.within(BLIPS) - {fault}) for one in mine)
        of += len(mine)
        yield _row(fault.value, len(mine), by, others)
    none = [one for one in all_heard if one.foot.fault is None]
    false = [sum(bool(one.within(look)) for one in none) for look in LOOKS]
    at_once = sum(one.told[BLIPS] is not None for one in none)
    yield _row("none", len(none), false, Counter(one for each in none for one in each.within(60)))
    yield f"told within {BLIPS}: {share(right, of)} (goal 85 %)"
    for skill in SKILLS:
        mine = [one for one in all_heard if one.foot.fault and one.foot.skill == skill]
        heard_right = sum(one.foot.fault in one.within(BLIPS) for one in mine)
        yield f"  of feet of skill {skill:g}: {share(heard_right, len(mine))}"
    yield f"a wrong one within {BLIPS}: {share(wrong, of)} (goal under 3 %)"
    yield f"no fault, told one at {BLIPS}: {share(at_once, len(none))} (goal under 5 %)"


def reading_lines(all_heard: Sequence[Heard]) -> Iterator[str]:
    """Table of how single blips are read, a line for each true fault."""
    read = sum((one.read for one in all_heard), Counter[tuple[Fault | None, Fault | None]]())
    kinds: list[Fault | None] = [*Fault, None]
    yield f"{'read as, %':12}" + "".join(f"{_name(one):>9}" for one in kinds)
    for truth in kinds:
        of = sum(read[truth, one] for one in kinds)
        shares = (100 * read[truth, one] / max(of, 1) for one in kinds)
        yield f"{_name(truth):12}" + "".join(f"{one:9.0f}" for one in shares) + f"   of {of}"


def share(times: int, of: int) -> str:
    """A count as a share, with what it is of."""
    return f"{times} of {of}, {100 * times / max(of, 1):.1f} %"


def _row(name: str, count: int, by: Sequence[int], others: Mapping[Fault, int]) -> str:
    told = "".join(f"{one:8d}" for one in by)
    return f"{name:10}{count:6d}{told}   {', '.join(f'{k} {v}' for k, v in others.items())}"


def _name(fault: Fault | None) -> str:
    return "none" if fault is None else fault.value


def main(arguments: Sequence[str]) -> int:
    """Print both tables."""
    count = int(arguments[0]) if arguments else FEET
    faulty = [*feet(list(Fault), count, SKILLS), *_without(3 * count)]
    all_heard = [heard(foot) for foot in faulty]
    for line in (*fault_lines(all_heard), "", *reading_lines(all_heard)):
        print(line, flush=True)
    return 0


def _without(count: int) -> list[FaultyFoot]:
    return [FaultyFoot(90_000 + seed, skill=SKILLS[seed % len(SKILLS)]) for seed in range(count)]


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
