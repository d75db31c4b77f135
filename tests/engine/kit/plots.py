"""Pictures of repetitions for the tests of the deviation plot, and what is drawn of them."""

from collections.abc import Sequence
from dataclasses import replace
from itertools import combinations

import numpy as np
import pygame

from drills.deviation import Average, Bound, Deviation, MarkedTime, WorstPlace
from engine.kit.canvas import Colour, Fonts, Point
from engine.kit.deviation_plot import decisive, deviation
from tests.drills.shapes import Values
from tests.engine.kit.recording_canvas import RecordingCanvas

CORNER, SIZE = (140.0, 440.0), (1640.0, 550.0)
TIME = np.linspace(-0.5, 1.5, 401)
DIPPED = -22.0 * np.exp(-(((TIME - 0.1) / 0.1) ** 2)) + 6.0 * np.exp(-(((TIME - 0.6) / 0.1) ** 2))
ALLOWED = Bound("15 allowed", -15.0, None, (0.0, 1.0))


class Drawn(RecordingCanvas):
    """Canvas of 1920 by 1080 pixels that records polygons too."""

    def __init__(self, fonts: Fonts) -> None:
        super().__init__((1920, 1080), fonts)
        self.shapes: list[tuple[Colour, list[Point]]] = []

    def shape(self, points: Sequence[Point], colour: Colour) -> None:
        """Record a polygon."""
        self.shapes.append((colour, list(points)))

    @property
    def said(self) -> list[str]:
        """Texts in the order in which they were written."""
        return [text.text for text in self.texts]


def one_thing(fonts: Fonts, picture: Deviation) -> Drawn:
    """Decisive picture of a repetition."""
    drawing = Drawn(fonts)
    decisive(drawing, CORNER, SIZE, picture)
    return drawing


def misplaced(fonts: Fonts, picture: Deviation) -> list[tuple[str, ...]]:
    """Words outside the plot, and pairs of words on each other, drawn in either way."""
    whole = Drawn(fonts)
    deviation(whole, CORNER, SIZE, picture, [picture], limits=True)
    inside = pygame.Rect(0, round(CORNER[1]) - 8, 1920, round(SIZE[1]) + 8)
    found: list[tuple[str, ...]] = []
    for drawing in (one_thing(fonts, picture), whole):
        found += [(text.text,) for text in drawing.texts if not inside.contains(text.ink)]
        found += [
            (one.text, other.text)
            for one, other in combinations(drawing.texts, 2)
            if one.ink.colliderect(other.ink)
        ]
    return found


def dipped(**changes: object) -> Deviation:
    """A blip that dipped 22 points, with the worst place and the limit that decided."""
    picture = Deviation(
        TIME,
        DIPPED,
        (-0.5, 1.5),
        27.0,
        throttle=np.interp(TIME, [0.0, 0.1, 0.2], [0.0, 80.0, 0.0]),
        cues=(-0.25,),
        bounds=(Bound("dip 15", -15.0, None, (0.0, 1.0)), Bound("over 12", None, 12.0, (0, 1))),
        worst=WorstPlace(0.1, -22.0, "22"),
        decides=ALLOWED,
    )
    return replace(picture, **changes)  # type: ignore[arg-type]


def noise(rng: np.random.Generator, count: int, reach: float) -> Values:
    """A random curve, smooth or jagged, that may leave the scale."""
    knots = int(rng.integers(3, 60))
    heights = rng.normal(0.0, reach * rng.choice([0.1, 0.5, 1.5]), knots)
    return np.interp(np.linspace(0, 1, count), np.linspace(0, 1, knots), heights)


def random_picture(seed: int) -> Deviation:
    """A picture with a random curve, pedals, cues, limits and worst place."""
    rng = np.random.default_rng(seed)
    last = float(rng.choice([0.4, 1.5, 3.0, 8.0]))
    time = np.linspace(-0.5, last, 400)
    reach = float(rng.choice([10.0, 27.0, 55.0]))
    curve = noise(rng, 400, reach)
    k = int(rng.choice([0, 399, int(curve.argmin()), int(rng.integers(400))]))
    label = str(rng.choice(["", "9", "22", "0.62 s", "never", "100"]))
    start, stop = sorted(rng.uniform(-0.5, last, 2).tolist())
    limit = reach / 2
    bound = Bound(f"{limit:g} allowed", -limit, limit, (start, stop))
    sides = [
        replace(bound, low=-limit, high=None),
        replace(bound, low=None, high=limit),
        replace(bound, low=-limit, high=limit),
    ]
    bounds = tuple(sides[int(rng.integers(3))] for _ in range(int(rng.integers(1, 6))))
    pedal = np.clip(noise(rng, 400, 60.0), 0.0, 100.0)
    ends = (float(curve.mean()), float(curve[-100:].mean()))
    side = float(np.sign(ends[1]))
    average = Average(
        line=ends if rng.random() < 0.5 else (ends[1], ends[1]),
        allowed=(side * limit, side * limit),
        during=((start, stop),),
        label="16.3",
        limit=f"{limit:g} allowed",
        sides=((-1, 1), (-1,), (1,), ())[int(rng.integers(4))],
        middle=float(rng.choice([0.0, ends[0]])),
        zero="average",
    )
    # What decided is one thing: an average, a time, or a place.
    one = str(rng.choice(["average", "timing", "place", "place", "place"]))
    worst = WorstPlace(float(time[k]), float(curve[k]), label)
    return Deviation(
        time,
        curve,
        (-0.5, last),
        reach,
        zero=str(rng.choice(["held", "target"])),
        throttle=pedal if rng.random() < 0.7 else None,
        clutch=pedal[::-1] if rng.random() < 0.3 else None,
        cues=tuple(rng.uniform(-1.0, last, int(rng.integers(0, 4))).tolist()),
        bounds=bounds,
        worst=worst if one == "place" and rng.random() < 0.8 else None,
        decides=bounds[0] if one == "place" and rng.random() < 0.8 else None,
        average=average if one == "average" else None,
        timing=MarkedTime(start, stop, "0.62 s") if one == "timing" else None,
        area=int(rng.integers(-1, 2)),
    )
