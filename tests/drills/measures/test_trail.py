"""Blips while easing off, in a made-up drive whose dips are known: against chord and held brake."""

from dataclasses import dataclass

import numpy as np
import pytest

from drills.measures.chord import ChordDisturbance, ChordRun
from drills.measures.disturbance import Run
from drills.measures.runs import measure_held, measure_recording
from tests.drills.measures.drive import CLOSE, Drive, drive
from tests.drills.shapes import Values

NEAR = 0.06  # s, how far a blip that is found may be from one that was made


@dataclass(frozen=True)
class Found:
    """How what was found compares with what was made."""

    error: float
    """points, root mean square of found - true dip over the blips that are scored."""
    scored: int
    """count of blips made that were found and scored."""
    missed: int
    """count of blips made that were not found at all."""
    false: int
    """count of blips found that were never made."""
    false_scored: int
    """count of those that were scored, and so enter every figure of the drive."""


def compared(
    made: Drive, onsets: list[float], dips: list[float | None], close: float = NEAR
) -> Found:
    """What was found against what was made, `close` to it in s.

    A dip of None is a blip that is not scored.
    """
    apart = np.abs(np.subtract.outer(np.array(onsets), made.onsets))
    mine = apart.argmin(axis=1)
    near = apart.min(axis=1) <= close
    errors: Values = np.array(
        [
            dip - made.dips[k]
            for dip, k, ok in zip(dips, mine, near, strict=True)
            if ok and dip is not None
        ]
    )
    return Found(
        float(np.sqrt(np.mean(errors**2))),
        errors.size,
        made.onsets.size - len(set(mine[near].tolist())),
        int((~near).sum()),
        sum(dip is not None for dip, ok in zip(dips, near, strict=True) if not ok),
    )


def against_the_chord(made: Drive, close: float = NEAR) -> Found:
    """Each blip against the line from before to after it."""
    blips = [part for run in measure_recording(made.trace) for part in run.blips]
    dips = [done.dip if isinstance(done, ChordDisturbance) else None for _, done in blips]
    return compared(made, [blip.onset for blip, _ in blips], dips, close)


def against_what_was_held(made: Drive) -> Found:
    """Each blip against the constant base of its run, as in a drill."""
    blips = [part for run in measure_held(made.trace) if isinstance(run, Run) for part in run.blips]
    return compared(made, [blip.onset for blip, _ in blips], [done.dip for _, done in blips])


@pytest.mark.parametrize("rate", [1000, 125])
@pytest.mark.parametrize("seed", [1, 2])
def test_the_chord_finds_every_blip_and_nearly_its_dip_while_easing_off(
    seed: int, rate: int
) -> None:
    # measures.md says 2 points (rms) against 29 for a constant base, on its own made-up drives.
    made = drive(seed, minutes=3, rate=rate)

    chord, held = against_the_chord(made), against_what_was_held(made)

    assert made.onsets.size > 20
    assert (chord.missed, chord.false) == (0, 0)
    assert chord.scored >= 0.95 * made.onsets.size
    assert chord.error < 2.5
    assert held.error > 5 * chord.error


def test_quick_blips_a_third_to_half_a_second_apart_are_scored() -> None:
    # Unscored is a blip with under 0.15 s between its pulse and the next: 0.05 s of that is before
    # the next one's onset, 0.1 s is the least that shows where the brake came to.
    made = [drive(seed, minutes=10, rate=333, blips=CLOSE) for seed in (1, 2)]

    found = [against_the_chord(one) for one in made]

    blips = sum(one.onsets.size for one in made)
    assert blips > 350
    assert sum(one.missed + one.false for one in found) == 0
    assert blips - sum(one.scored for one in found) < 20
    assert max(one.error for one in found) < 2.5


def test_a_chord_run_holds_the_worst_the_mean_and_the_sums_of_its_scored_blips() -> None:
    runs = [
        run
        for run in measure_recording(drive(3, minutes=2, rate=1000).trace)
        if isinstance(run, ChordRun)
    ]

    assert max(len(run.blips) for run in runs) > 2
    for run in runs:
        parts = [done for _, done in run.blips if isinstance(done, ChordDisturbance)]
        assert run.dip == max(part.dip for part in parts)
        assert run.surge == max(part.surge for part in parts)
        assert run.mean_dip == pytest.approx(np.mean([part.dip for part in parts]))
        for name in ("shortfall", "excess", "extra_distance"):
            whole = sum(getattr(part, name) for part in parts)
            assert getattr(run, name) == pytest.approx(whole)
