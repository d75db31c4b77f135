"""Measures of a braking zone by their names in the catalogue."""

from __future__ import annotations

from collections.abc import Sequence

from drills.measures.catalogue import PLACES
from drills.measures.chord import ChordDisturbance, ChordRun
from drills.measures.tempo import farthest, lateness
from drills.measures.zone import ZoneWork

OF_THE_SQUEEZE = ("brake_on", "rise", "peak_error")
"""Names of the measures of the brake going on."""
OF_THE_LINE = ("line_error", "line_worst", "line_lag", "reversals")
"""Names of the measures of the brake on its line."""
OF_THE_CHORDS = ("dip", "mean_dip", "surge", "shortfall", "excess", "extra_distance")
"""Names of the measures of the blips against their chords."""
OF_THE_DEEPEST = ("carry", "early", "coupling")
"""Names of the measures of the blip with the deepest dip."""
OF_THE_THROTTLE = ("peak", "width", "lateness")
"""Names of the measures of the throttle: the peak of the blip with the deepest dip, the greatest
width, and the lateness farthest from 0."""
BY_PLACE = tuple(f"{name}_{place}" for name in ("dip", "lateness") for place in PLACES)
"""Names of the measures that each blip has under its place."""
OF_THE_END = ("off_at",)
"""Names of the measures of the brake coming off."""


def zone_measures(work: ZoneWork, beats: Sequence[float]) -> dict[str, float | None]:
    """Measures of a braking zone by name; `beats` is when each blip was due, in s as of the trace.

    Those of the blips are left out where no blip could be timed, those of the brake under the blips
    where none could be measured, those of the beats where there are more blips than beats or fewer.
    """
    measures: dict[str, float | None] = {
        name: getattr(work, name) for name in (*OF_THE_SQUEEZE, *OF_THE_LINE, *OF_THE_END)
    }
    pulses, run = work.pulses, work.run
    if not pulses:
        return measures
    measures["width"] = max(pulse.width for pulse in pulses)
    if len(pulses) == len(beats):
        late = lateness([pulse.onset for pulse in pulses], beats)
        measures["lateness"] = farthest(late)
        measures |= {f"lateness_{place}": one for place, one in zip(PLACES, late, strict=False)}
    if not isinstance(run, ChordRun):
        return measures
    measures |= {name: getattr(run, name) for name in OF_THE_CHORDS}
    scored = [(pulse, dip) for pulse, dip in run.blips if isinstance(dip, ChordDisturbance)]
    pulse, worst = max(scored, key=lambda one: one[1].dip)
    measures |= {name: getattr(worst, name) for name in OF_THE_DEEPEST} | {"peak": pulse.peak}
    return measures | {
        f"dip_{place}": done.dip if isinstance(done, ChordDisturbance) else None
        for place, (_, done) in zip(PLACES, run.blips, strict=False)
    }
