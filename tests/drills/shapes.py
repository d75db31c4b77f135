"""Pulses and traces of known shape that tests of the measures share."""

import math
from collections.abc import Callable
from typing import Any

import numpy as np
import pytest
from numpy.typing import NDArray

from drills.trace import STEP, Grid, Trace

Values = NDArray[np.float64]
Shape = Callable[[Values], Values]


def near(value: Any, abs: float | None = None) -> Any:
    """A stand-in for a number, or some, that equals all that is close to it."""
    return pytest.approx(value, abs=abs)


def half_sine(length: float) -> Shape:
    """A half sine of height 1 over `length` s from time 0."""
    return lambda t: np.where((t >= 0) & (t <= length), np.sin(np.pi * t / length), 0.0)


def raised_cosine(length: float) -> Shape:
    """A raised cosine of height 1 over `length` s from time 0."""
    return lambda t: np.where(
        (t >= 0) & (t <= length), 0.5 - 0.5 * np.cos(2 * np.pi * t / length), 0.0
    )


def triangle(length: float) -> Shape:
    """A triangle of height 1 over `length` s from time 0."""
    return lambda t: np.maximum(0.0, 1 - np.abs(2 * t / length - 1))


def gaussian(sigma: float, centre: float) -> Shape:
    """A Gaussian of height 1."""
    return lambda t: np.exp(-(((t - centre) / sigma) ** 2) / 2)


def trapezoid(rise: float, top: float, fall: float) -> Shape:
    """A trapezoid of height 1 from time 0."""
    corners = [0, rise, rise + top, rise + top + fall]
    return lambda t: np.interp(t, corners, [0, 1, 1, 0])


def seconds(length: float) -> Values:
    """Grid times over `length` s."""
    return np.arange(round(length * 1000)) / 1000


def trace_of(brake: Values, throttle: Values) -> Trace:
    """A trace sampled every millisecond from time 0."""
    return Trace(np.arange(brake.size, dtype=np.int64) * STEP, brake, throttle)


def grid_of(brake: Values, throttle: Values) -> Grid:
    """The grid of such a trace."""
    return Grid.of(trace_of(brake, throttle))


def impulse(gain: float, damping: float, frequency: float) -> tuple[Shape, float, float]:
    """The impulse response of a second-order system, with its greatest and its least value.

    Closed form (memory, any control textbook): y = gain / wd exp(-z wn t) sin(wd t), extreme at
    acos(z) / wd and half a period later.
    """
    damped = frequency * math.sqrt(1 - damping**2)

    def at(t: Values) -> Values:
        t = np.maximum(t, 0.0)
        return gain / damped * np.exp(-damping * frequency * t) * np.sin(damped * t)

    first = np.array([math.acos(damping) / damped])
    return at, float(at(first)[0]), float(at(first + math.pi / damped)[0])
