"""Output of `stillfoot score`: the measures of a recording, as JSON or as a table."""

from __future__ import annotations

import io
import json
from collections.abc import Mapping, Sequence
from dataclasses import asdict, fields
from typing import Any

from drills.digits import decimals
from drills.measures.blip import Pulse
from drills.measures.catalogue import CATALOGUE
from drills.measures.chord import (
    OF_A_CHORD,
    OF_A_CHORD_RUN,
    ChordDisturbance,
    ChordRun,
    Unchorded,
    Unscorable,
)
from drills.measures.disturbance import OF_A_RUN, Disturbance, Run
from drills.measures.long_blips import long_blips_warning
from drills.measures.noise import noise_warning
from drills.measures.runs import NotScored, floor_warning
from drills.measures.sampling import measure_sampling
from drills.number_words import counted
from drills.recording import Recording
from engine.commands.score_summary import runs_to_print
from engine.road.blips import untimed_warning

PULSE_NAMES = tuple(field.name for field in fields(Pulse) if field.name not in ("first", "after"))
DISTURBANCE_NAMES = tuple(field.name for field in fields(Disturbance))
HEADS_HELD = ("onset", "peak", "width", "dip", "dip_at", "rebound", "settle", "coupling", "lag")
HEADS_CHORD = ("onset", "peak", "width", "dip", "surge", "carry", "early", "coupling", "lag")
WINDOWS = ("hold", "step", "release")
WINDOW_DECIMALS, RUN_DECIMALS = 3, 2
"""Largest number of decimals in the tables of windows and of runs of blips."""


def about(
    recording: Recording,
    floor: float | None = None,
    pulses: Sequence[Pulse] = (),
    noise: float | None = None,
    runs: Sequence[ChordRun | Unscorable | Run | NotScored] = (),
) -> dict[str, Any]:
    """Sampling of a recording, how it was read, and warnings, for JSON.

    `floor` is the throttle at rest in %, `pulses` are the throttle pulses that were measured,
    `noise` is that of the brake in points, `runs` are the runs of blips.
    """
    trace = recording.trace
    at_rest = None if floor is None else floor_warning(floor)
    told = (noise_warning(noise), at_rest, long_blips_warning(pulses), untimed_warning(runs))
    warnings = [*recording.warnings, *(warning for warning in told if warning is not None)]
    return {
        "sampling": asdict(measure_sampling(trace, int(trace.time[0]), pulses)),
        "notes": list(recording.notes),
        "warnings": warnings,
    }


def held_runs_data(runs: Sequence[Run | NotScored]) -> dict[str, Any]:
    """Runs measured against the brake held before them, ready for JSON."""
    return {"runs": [_held(run) for run in runs]}


def chord_runs_data(runs: Sequence[ChordRun | Unscorable]) -> dict[str, Any]:
    """Runs whose blips are measured against their chord, ready for JSON."""
    return {"runs": [_chords(run) for run in runs]}


def measures_json(found: Mapping[str, Any]) -> str:
    """Measures of a recording as one line of JSON."""
    return json.dumps(found, allow_nan=False)


def measures_table(found: Mapping[str, Any], *, every_run: bool = False) -> str:
    """Measures of a recording as text; times are no finer than the device reported.

    Runs of blips come after their summary: those with the deepest dips, or all (`every_run`).
    """
    out = io.StringIO()
    finest = decimals(found["sampling"]["report_interval"])
    for kind in WINDOWS:
        if kind in found:
            out.write(f"{kind}\n")
            _Table(out, finest, WINDOW_DECIMALS).column(found[kind])
    if "summary" in found:
        out.writelines(f"{line}\n" for line in found["summary"]["says"])
    runs, left = runs_to_print(found.get("runs", []), every_run)
    if left:
        out.write(f"\n{left}\n")
    if runs:
        out.write("\n")
    for number, run in runs:
        _write_run(_Table(out, min(finest, RUN_DECIMALS), RUN_DECIMALS), number, run)
    for note in found["notes"]:
        out.write(f"note: {note}\n")
    for warning in found["warnings"]:
        out.write(f"warning: {warning}\n")
    return out.getvalue().rstrip("\n")


def _held(run: Run | NotScored) -> dict[str, Any]:
    if isinstance(run, NotScored):
        whole = dict.fromkeys(OF_A_RUN)
        nothing = dict.fromkeys(DISTURBANCE_NAMES)
        blips = [_timed(blip) | nothing for blip in run.blips]
        return {"scored": False, "reason": run.reason.value, **whole, "blips": blips}
    whole = {name: getattr(run, name) for name in OF_A_RUN}
    blips = [_timed(blip) | asdict(disturbance) for blip, disturbance in run.blips]
    return {"scored": True, **whole, "blips": blips}


def _chords(run: ChordRun | Unscorable) -> dict[str, Any]:
    blips = [_timed(blip) | _chord(done) for blip, done in run.blips]
    if isinstance(run, Unscorable):
        whole = dict.fromkeys(OF_A_CHORD_RUN)
        return {"scored": False, "reason": run.reason.value, **whole, "blips": blips}
    return {"scored": True, **{name: getattr(run, name) for name in OF_A_CHORD_RUN}, "blips": blips}


def _chord(done: ChordDisturbance | Unchorded) -> dict[str, Any]:
    if isinstance(done, Unchorded):
        nothing = dict.fromkeys((*OF_A_CHORD, "early_roll"))
        return {"scored": False, "reason": done.value, **nothing}
    measures = {name: getattr(done, name) for name in OF_A_CHORD}
    return {"scored": True, **measures, "early_roll": done.is_early}


def _timed(blip: Pulse) -> dict[str, Any]:
    return {name: getattr(blip, name) for name in PULSE_NAMES}


def _write_run(table: _Table, number: int, run: Mapping[str, Any]) -> None:
    blips = run["blips"]
    when = f" from {table.number('onset', blips[0]['onset'])} s" if blips else ""
    count = counted(len(blips), "blip")
    table.line(f"run {number}: {count}{when}")
    if not run["scored"]:
        table.line(f"  not scored: {run['reason']}\n")
        return
    table.column({name: value for name, value in run.items() if name in CATALOGUE})
    table.row("blip", HEADS_HELD if "base" in run else HEADS_CHORD, blips)
    for place, blip in enumerate(blips, start=1):
        if blip.get("early_roll"):
            table.line(
                f"  blip {place}: early roll of "
                f"{CATALOGUE['early'].written(blip['early'])}; the dip counts that"
            )
    table.line("")


class _Table:
    """Text table of measures that lines numbers up under their names."""

    def __init__(self, out: io.StringIO, finest: int, places: int) -> None:
        """`finest` is the number of decimals of a time in s, `places` of any other measure."""
        self._out = out
        self._finest = finest
        self._places = places

    def line(self, text: str) -> None:
        """Write one line of text to the table."""
        self._out.write(f"{text}\n")

    def column(self, measures: Mapping[str, Any]) -> None:
        """Write measures one under the other, each with its unit."""
        for name, value in measures.items():
            number = f"{self.number(name, value):>10}"
            measure = CATALOGUE[name]
            cell = number if value is None else measure.with_unit(number)
            self.line(f"  {measure.label:<18}{cell}")

    def row(self, title: str, names: Sequence[str], entries: Sequence[Mapping[str, Any]]) -> None:
        """Write entries one under the other, with their measures side by side under their names."""
        self.line("  " + "".join(f"{name:>10}" for name in (title, *names)))
        for place, entry in enumerate(entries, start=1):
            if not entry.get("scored", True):
                self.line(f"  {place:>10}  not scored: {entry['reason']}")
                continue
            cells = "".join(f"{self.number(name, entry[name]):>10}" for name in names)
            self.line(f"  {place:>10}{cells}")

    def number(self, name: str, value: float | None) -> str:
        """A measure's value as text, "none" if it is None."""
        places = self._finest if CATALOGUE[name].unit == "s" else self._places
        # Adding 0 takes the sign from a value that rounds to 0.
        return "none" if value is None else f"{round(value, places) + 0.0:.{places}f}"
