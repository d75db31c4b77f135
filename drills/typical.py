"""Typical picture of several repetitions: the median of their curves, moment by moment."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

import numpy as np

from drills.braking_zone import at_line
from drills.deviation import Deviation
from drills.trace import Values


def on_line_of(picture: Deviation, other: Deviation) -> Deviation:
    """Picture of a brake that comes down, as far from the line asked of another as from its own.

    So curves to several peaks can be laid over one line. A picture without a line, or with the same
    one, stays as it is.
    """
    if not picture.asked or not other.asked or picture.asked == other.asked:
        return picture
    away = picture.drawn - _asked(picture, picture.time)
    meant = _asked(other, picture.time)
    return replace(picture, deviation=away, meant=meant, asked=other.asked, reach=other.reach)


def median_of(pictures: Sequence[Deviation]) -> Deviation:
    """Median picture of several on one scale, at every moment that all of them cover.

    Limits and labels are those of the last. Brakes that come down are each compared with the line
    asked of it, and their median is drawn on the last line. Raises ValueError where there is none.
    """
    if not pictures:
        raise ValueError("pictures: expected at least one, found none")
    last = pictures[-1]
    begins = max(float(picture.time[0]) for picture in pictures)
    ends = min(float(picture.time[-1]) for picture in pictures)
    time = last.time[(last.time >= begins) & (last.time <= ends)]
    curves = [
        np.interp(time, picture.time, picture.drawn) - _asked(picture, time) for picture in pictures
    ]
    typical = _curve_alone(last, time, np.median(curves, axis=0))
    return replace(typical, meant=None if last.meant is None else _asked(last, time))


def median_of_most(pictures: Sequence[Deviation]) -> Deviation:
    """Median picture of several, at every moment that half of them or more cover.

    The moments are whole milliseconds; each picture counts where it is. Labels are those of the
    last, limits none. Raises ValueError where there is no picture.
    """
    if not pictures:
        raise ValueError("pictures: expected at least one, found none")
    begins = [round(float(picture.time[0]) * 1000) for picture in pictures]
    ends = [begin + picture.time.size for begin, picture in zip(begins, pictures, strict=True)]
    first = min(begins)
    curves = np.full((len(pictures), max(ends) - first), np.nan)
    for row, begin, end, picture in zip(curves, begins, ends, pictures, strict=True):
        row[begin - first : end - first] = picture.deviation
    covered = np.flatnonzero(2 * np.isfinite(curves).sum(axis=0) >= len(pictures))
    median = np.nanmedian(curves[:, covered], axis=0)
    return replace(_curve_alone(pictures[-1], (first + covered) / 1000, median), bounds=())


def _curve_alone(picture: Deviation, time: Values, deviation: Values) -> Deviation:
    """The picture with another curve, and without what belongs to one repetition alone."""
    return replace(
        picture,
        time=time,
        deviation=deviation,
        throttle=None,
        clutch=None,
        cues=(),
        shifts=(),
        blips=(),
        worst=None,
        decides=None,
        average=None,
        timing=None,
        area=0,
        within=(),
        origin=0.0,
    )


def _asked(picture: Deviation, time: Values) -> Values:
    """Brake that a picture's line asks at times in s, in %; 0 for one without a line."""
    return at_line(picture.asked, time) if picture.asked else np.zeros(time.size)
