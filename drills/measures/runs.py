"""The runs of blips in a whole recording, each measured by itself."""

from __future__ import annotations

from dataclasses import dataclass

from drills.measures.blip import BEFORE_TO, Blip, find_blips, runs_of
from drills.measures.distance import Stop
from drills.measures.disturbance import BAND, Run, Unscored, measure_run, pulses_of
from drills.trace import Grid


@dataclass(frozen=True)
class NotScored:
    """A run of blips that has no measures."""

    reason: Unscored
    """Why."""
    blips: tuple[Blip, ...]
    """The pulses that could be timed all the same."""


def measure_recording(
    grid: Grid, band: float = BAND, stop: Stop | None = None
) -> list[Run | NotScored]:
    """Every run of blips in a recording without cues, in order; `band` is in %."""
    groups = runs_of(find_blips(grid))
    pulses = [pulses_of(grid, group) for group in groups]
    runs: list[Run | NotScored] = []
    for number, group in enumerate(groups):
        following = pulses[number + 1] if number + 1 < len(groups) else Unscored.NO_REST
        until = None
        if not isinstance(following, Unscored):
            until = following[0].first - BEFORE_TO
        run = measure_run(grid, group, band, stop, until)
        timed = pulses[number]
        if isinstance(run, Unscored):
            runs.append(NotScored(run, () if isinstance(timed, Unscored) else tuple(timed)))
        else:
            runs.append(run)
    return runs
