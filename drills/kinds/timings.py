"""The time that decided a repetition with blips, as the picture marks it over the throttle."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

import numpy as np

from drills.deviation import Deviation, MarkedTime, Span
from drills.measures.blip import Pulse
from drills.remark import Headline
from drills.score import WEIGHED, Reason, Verdict

TIMED: Mapping[Reason, str] = {Reason.LATE: "reaction", Reason.LONG: "width"}
"""Measure that decided, by the outcome of a blip that was not what was asked in time."""


def timing_of(
    verdict: Verdict,
    figure: Headline | None,
    picture: Deviation,
    pulses: Sequence[Pulse],
    cues: Sequence[float],
    zero: float,
) -> MarkedTime | None:
    """The time that decided, with the number of the large figure; None where none did.

    `cues` are those of the pulses, in s on the axis of the picture, `zero` is where that axis
    begins on the one of the trace, in s.
    """
    name = verdict.worst if verdict.reason in WEIGHED else TIMED.get(verdict.reason, "")
    value = verdict.measures.get(name)
    if figure is None or not figure.value[0].isdigit() or value is None or not pulses:
        return None
    first = pulses[0]
    span: Span | None = None
    match name:
        case "reaction" | "clutch_down" | "clutch_up" if cues:
            span = (cues[0], cues[0] + value)
        case "lateness":
            gaps = [(cue, pulse.onset - zero) for cue, pulse in zip(cues, pulses, strict=False)]
            span = max(gaps, key=lambda gap: abs(gap[1] - gap[0]), default=None)
        case "rise":
            span = (first.onset - zero, first.onset - zero + value)
        case "fall":
            span = (first.end - zero - value, first.end - zero)
        case "width":
            pulse = min(pulses, key=lambda one: abs(one.width - value))
            begins = _half_in(picture, pulse, zero)
            span = (begins, begins + value)
    return None if span is None else MarkedTime(min(span), max(span), figure.value)


def _half_in(picture: Deviation, pulse: Pulse, zero: float) -> float:
    """When the throttle of a pulse first was at half its height, in s on the picture's axis."""
    if picture.throttle is None:
        return pulse.onset - zero
    inside = (picture.time >= pulse.onset - zero) & (picture.time < pulse.end - zero)
    high = np.flatnonzero(inside & (picture.throttle >= pulse.peak / 2))
    return float(picture.time[high[0]]) if high.size else pulse.onset - zero
