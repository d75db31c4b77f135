"""`RoadBlip`: one blip of a recorded drive, made from what was measured of it."""

from __future__ import annotations

from collections import Counter
from collections.abc import Sequence
from dataclasses import dataclass

from drills.measures.chord import ChordDisturbance, ChordRun, Unscorable
from drills.measures.disturbance import Run
from drills.measures.early import EARLY_LEAST
from drills.measures.runs import NotScored


@dataclass(frozen=True)
class RoadBlip:
    """One blip of a recorded drive."""

    run: int
    """Number of the run of blips that it is part of, from 1."""
    place: int
    """Number of the blip within its run, from 1."""
    onset: float
    """Time at which the blip began, in s on the time axis of the recording."""
    peak: float
    """Highest throttle of the blip, in %."""
    dip: float | None = None
    """How far the brake fell below its chord, or below what was held where it is measured so, in
    points; None if the blip is not scored."""
    surge: float | None = None
    """How far the brake rose above the same, in points; None if the blip is not scored."""
    carry: float | None = None
    """Change of the chord over the blip, taken as intended, in points; None if not scored."""
    early: float | None = None
    """Brake that was gone before the throttle moved, in points; None if that is not known."""
    reason: str = ""
    """Reason why the blip is not scored; empty if it is scored."""
    extra_distance: float | None = None
    """Estimated extra stopping distance of the dip, in m, at most; None if the blip is not scored
    or comes from the history, which does not have it."""

    @property
    def is_early(self) -> bool:
        """Whether the brake left before the throttle, so that the dip is told from before that."""
        return self.early is not None and self.early > EARLY_LEAST


def chord_blips(runs: Sequence[ChordRun | Unscorable]) -> tuple[RoadBlip, ...]:
    """All blips of runs that were measured against their chords, in order."""
    return tuple(
        RoadBlip(
            *(number, place, pulse.onset, pulse.peak),
            *(done.dip, done.surge, done.carry, done.early),
            extra_distance=done.extra_distance,
        )
        if isinstance(done, ChordDisturbance)
        else RoadBlip(number, place, pulse.onset, pulse.peak, reason=str(done))
        for number, run in enumerate(runs, start=1)
        for place, (pulse, done) in enumerate(run.blips, start=1)
    )


def held_blips(runs: Sequence[Run | NotScored]) -> tuple[RoadBlip, ...]:
    """All blips of runs that were measured against the brake held before them, in order."""
    found = []
    for number, run in enumerate(runs, start=1):
        if isinstance(run, NotScored):
            found += [
                RoadBlip(number, place, pulse.onset, pulse.peak, reason=run.reason.value)
                for place, pulse in enumerate(run.blips, start=1)
            ]
            continue
        found += [
            RoadBlip(
                *(number, place, pulse.onset, pulse.peak, done.dip, done.surge),
                extra_distance=done.extra_distance,
            )
            for place, (pulse, done) in enumerate(run.blips, start=1)
        ]
    return tuple(found)


def untimed_warning(runs: Sequence[ChordRun | Unscorable | Run | NotScored]) -> str | None:
    """Warning for runs none of whose blips could be timed, so that they are in no figure, or None.

    It gives the reason of most of them.
    """
    reasons = Counter(
        str(run.reason) for run in runs if isinstance(run, Unscorable | NotScored) and not run.blips
    )
    if not reasons:
        return None
    count = reasons.total()
    runs_of = "1 run of blips is" if count == 1 else f"{count} runs of blips are"
    return f"{runs_of} left out: {reasons.most_common(1)[0][0]}"
