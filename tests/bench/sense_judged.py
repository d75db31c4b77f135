"""What is told of the sense of pressure and of the size of blips, for feet whose own are known.

    python tests/bench/sense_judged.py [FEET]

FEET of each sense play 30 squeezes, and FEET of each size of blip 40 steadiness blips, into a
history of their own. The feet are made apart from the rules that judge them.
"""

from __future__ import annotations

import sys
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from pathlib import Path

ROOT = Path(__file__).resolve().parents[2]
sys.path.insert(0, str(ROOT))

from engine.practice.results import Purpose  # noqa: E402
from engine.practice.size_made import size_made  # noqa: E402
from engine.store.asked import newest_peaks, sense_now  # noqa: E402
from tests.bench.faulty_feet import FaultyFoot  # noqa: E402
from tests.bench.feet_histories import BAND, SQUEEZES, a_history, practised, squeezed  # noqa: E402
from tests.bench.sensing_feet import SensingFoot  # noqa: E402

FEET = 40
"""Feet of each kind, as a count."""
SQUEEZED = 30
"""Squeezes within which a wrong sense is to be told, as a count."""
EVERY = 6
"""Squeezes of a day, after each of which is asked what would be told, as a count."""
SIZED = 40
"""Steadiness blips after which is asked what would be told of their size, as a count."""
SENSES = {
    "6 + 0.85 x asked": SensingFoot(0, offset=6, gain=0.85),
    "6 + 0.85 x, stiller": SensingFoot(0, offset=6, gain=0.85, noise=0.06),
    "4 too little": SensingFoot(0, offset=-4),
    "true": SensingFoot(0),
    "true, days differ": SensingFoot(0, day_noise=0.04),
    "true, still foot": SensingFoot(0, noise=0.03),
}
"""Senses of pressure, by their names in the table."""
SIZES = {"60, made 48": (-12.0, 11.0), "60, made 60": (0.0, 11.0), "60, made 57": (-3.0, 8.0)}
"""Mean of the sizes of blips minus 60 %, and their standard deviation, in points."""


@dataclass(frozen=True)
class Sensed:
    """What one foot is told of its sense of pressure."""

    told: tuple[bool, ...]
    """Whether a fault was told after each day of squeezes, in order."""
    wrong: bool
    """Whether the error that was told last has the wrong sign, or none is there."""
    covers: bool | None
    """Whether the interval of the gain holds that of the foot; None where none was told."""


def sensed(foot: SensingFoot) -> Sensed:
    """What a foot is told that squeezes any weight for some days."""
    told: list[bool] = []
    wrong, covers = False, None
    with a_history() as history:
        for number, _ in enumerate(squeezed(foot, history, SQUEEZES[-1], SQUEEZED), start=1):
            if number % EVERY:
                continue
            sense = sense_now(history)
            fault = None if sense is None else sense.fault
            told.append(fault is not None)
            if fault is not None:
                true = foot.offset + (foot.gain - 1) * fault.weight
                wrong = true * fault.error.value <= 0
            if sense is not None and sense.gain is not None:
                covers = sense.gain.low <= foot.gain <= sense.gain.high
    return Sensed(tuple(told), wrong, covers)


def sense_lines(count: int) -> Iterator[str]:
    """Table of what so many feet of each sense are told, and its goals."""
    yield (
        f"{'sense':20}{'feet':>6}{f'at {SQUEEZED}':>8}{'ever':>8}"
        f"{'wrong':>8}   gain inside its interval"
    )
    for name, sense in SENSES.items():
        found = [sensed(replace(sense, seed=50_000 + seed)) for seed in range(count)]
        at, ever = sum(one.told[-1] for one in found), sum(any(one.told) for one in found)
        inside = [one.covers for one in found if one.covers is not None]
        yield (
            f"{name:20}{count:6d}{at:8d}{ever:8d}"
            f"{sum(one.wrong for one in found):8d}   {sum(inside)} of {len(inside)}"
        )
    yield f"wrong sense told within {SQUEEZED} (goal 75 %); a true one told (goal under 5 %)"


def size_lines(count: int) -> Iterator[str]:
    """Table of what so many feet of each size of blip are told."""
    yield f"{'blips':20}{'feet':>6}{'small':>8}{'big':>8}   made, mean of what is told"
    for name, (bias, spread) in SIZES.items():
        found = [
            told_size(FaultyFoot(70_000 + seed, size_bias=bias, size_spread=spread))
            for seed in range(count)
        ]
        told = [one for one in found if one is not None]
        small, big = sum(one[0] for one in told), sum(one[1] for one in told)
        mean = sum(one[2] for one in told) / max(len(told), 1)
        wide = sum(one[3] for one in told) / max(len(told), 1)
        yield f"{name:20}{count:6d}{small:8d}{big:8d}   {mean:.1f} ± {wide:.1f} of {len(told)}"


def told_size(foot: FaultyFoot) -> tuple[bool, bool, float, float] | None:
    """Whether a foot is told small or big blips, and mean and spread that are told; or nothing."""
    with a_history() as history:
        for _ in practised(foot, history, SIZED, (Purpose.BAND,) * 6):
            pass
        made = size_made(newest_peaks(history, BAND.id), BAND.own["blip.size"])
    return None if made is None else (made.is_small, made.is_big, made.mean, made.spread)


def main(arguments: Sequence[str]) -> int:
    """Print both tables."""
    count = int(arguments[0]) if arguments else FEET
    for line in (*sense_lines(count), "", *size_lines(count)):
        print(line, flush=True)
    return 0


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
