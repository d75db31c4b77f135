"""Every screen with contents as they come up in play, and a canvas that records what is drawn."""

from collections.abc import Mapping
from dataclasses import dataclass, replace
from datetime import UTC, datetime

import numpy as np
import pygame

from drills.deviation import Deviation, deviation_of
from drills.kinds import KINDS
from drills.level import Level
from drills.repetition import OVER, Repetition
from drills.score import Reason, Verdict
from drills.trace import Sample
from engine.commands.demo import ManualClock
from engine.flow.judging import conclude
from engine.levels import SHIPPED, load_levels
from engine.pedals.calibration import Range
from engine.pedals.identity import Axis
from engine.pedals.port import CalibratedPedals
from engine.pedals.simulated import SIMULATED_TRAVEL, STEP, Foot, SimulatedPedals
from engine.screens import theme
from engine.screens.base import Screen
from engine.screens.canvas import Align, Canvas, Colour, Fonts, Point
from engine.screens.cautions import Cautions
from engine.screens.finding import FindPedal, PedalsFound
from engine.screens.home import Home, Standing
from engine.screens.level_list import Levels
from engine.screens.nopedals import NoPedals, Unplugged
from engine.screens.repeating import Repeating
from engine.screens.reveal import Reveal
from engine.screens.setend import SetEnd, Tally
from engine.store import Record

LEVELS = load_levels([SHIPPED])
BY_ID = {level.id: level for level in LEVELS}
DEVICE = "Quiet Works Pedal Set (three load cells)"


@dataclass(frozen=True)
class Text:
    """One line of text as it was drawn."""

    text: str
    """What it says."""
    size: float
    """units."""
    ink: pygame.Rect
    """pixels, what is covered by letters."""


class RecordingCanvas(Canvas):
    """Draws, and keeps every line of text and every box."""

    def __init__(self, size: tuple[int, int], fonts: Fonts) -> None:
        self.surface = pygame.Surface(size)
        super().__init__(self.surface, fonts)
        self.texts: list[Text] = []
        self.boxes: list[pygame.Rect] = []

    @property
    def picture(self) -> pygame.Rect:
        """pixels, the 16:9 picture."""
        left, top = self._pixel((0, 0))
        width, height = theme.WIDTH * self.scale, theme.HEIGHT * self.scale
        return pygame.Rect(round(left), round(top), round(width), round(height))

    def text(
        self,
        text: str,
        at: Point,
        size: float = theme.BODY,
        colour: Colour = theme.TEXT,
        align: Align = "left",
        width: float | None = None,
    ) -> float:
        """Write it, and keep where its ink is."""
        font = self._font(size)
        lines = [text] if width is None else self._wrap(font, text, width)
        for number, line in enumerate(lines):
            ink = font.render(line, True, colour).get_bounding_rect()
            left, top = self._pixel((at[0], at[1] + number * size))
            shift = {"left": 0.0, "centre": 0.5, "right": 1.0}[align] * font.size(line)[0]
            self.texts.append(Text(line, size, ink.move(round(left - shift), round(top))))
        return super().text(text, at, size, colour, align, width)

    def box(
        self,
        corner: Point,
        size: Point,
        colour: Colour,
        radius: float = 0.0,
        line: float = 0.0,
    ) -> pygame.Rect:
        """Draw it, and keep where it is."""
        self.boxes.append(super().box(corner, size, colour, radius, line))
        return self.boxes[-1]


def repetition(level: Level, skill: float, seed: int) -> tuple[Record, Deviation | None]:
    """A repetition by the simulated foot, judged, and its picture."""
    clock = ManualClock()
    pedals = SimulatedPedals(Foot(skill, seed), clock)
    feet = CalibratedPedals(pedals, SIMULATED_TRAVEL)
    task = KINDS[level.kind].task(level, level.targets[0], np.random.default_rng(seed))
    one = Repetition(task, 0)
    pedals.see_target(task.target)
    while one.phase not in OVER:
        clock.advance(STEP)
        sample = feet.sample()
        assert sample is not None
        phase = one.feed(sample)
        if phase is not None:
            pedals.see_phase(phase)
    record = conclude(level, task, one, "simulated", datetime(2024, 5, 17, tzinfo=UTC))
    done = one.performance()
    assert done is not None
    return record, deviation_of(task, done, record.verdict)


def reveal(level: Level, skill: float = 0.2) -> Reveal:
    """The reveal of a sixth repetition over five before it."""
    done = [repetition(level, skill, seed) for seed in range(2, 8)]
    before = [shown for _, shown in done[:-1] if shown is not None]
    return Reveal(level, done[-1][0], (done[-1][1], before), (6, 10))


def ended(level: Level, reason: Reason) -> Reveal:
    """The reveal of a repetition that has nothing to show."""
    verdict = Verdict(reason) if reason.void else Verdict(reason, 6.2, tuple(level.limits))
    record, _ = repetition(level, 0.5, 1)
    return Reveal(level, replace(record, verdict=verdict), (None, ()), (2, 10))


def repeating(level: Level, *samples: tuple[float, float]) -> Repeating:
    """A repetition on the screen after some samples of brake and throttle."""
    task = KINDS[level.kind].task(level, level.targets[0], np.random.default_rng(1))
    screen = Repeating(level, task, (3, 10), lambda _, __: None)
    for number, (brake, throttle) in enumerate(samples):
        screen.on_sample(Sample(number * 1_000_000, brake, throttle), number * 1_000_000)
    return screen


def finding(pedal: str, course: tuple[float, ...], taken: Range | None = None) -> FindPedal:
    """A search on one axis that rested at the first value and then read the others in turn."""
    axis, values = Axis(0, 0), [0.0]
    screen = FindPedal(
        pedal,
        lambda: {axis: values[0]},
        {axis: taken} if taken else {},
        optional=pedal == "clutch",
    )
    now = 0
    for value in course:
        values[0] = value
        for _ in range(20):
            now += 100_000_000
            screen.on_sample(None, now)
    return screen


def binding_screens() -> Mapping[str, Screen]:
    """The screens of setting up the pedals."""
    lines = {"brake": f"axis 2 of {DEVICE}", "throttle": f"axis 1 of {DEVICE}"}
    return {
        "pedals at rest": finding("brake", ()),
        "find brake": finding("brake", (-1.0,)),
        "release brake": finding("brake", (-1.0, 1.0)),
        "full brake": finding("brake", (-1.0, 1.0, -1.0)),
        "find clutch": finding("clutch", (-1.0,)),
        "taken": finding("throttle", (-1.0, 1.0), Range(-1.0, 1.0)),
        "shared": finding("throttle", (0.0, 1.0), Range(0.0, -1.0)),
        "found two": PedalsFound(lines),
        "found three": PedalsFound({**lines, "clutch": f"axis 3 of {DEVICE}"}),
    }


def every_screen() -> Mapping[str, Screen]:
    """Every screen by a name, with contents as they come up in play."""
    blip, hold = BY_ID["blip-1-first"], BY_ID["still-3-dark"]
    standings = {
        level.id: Home(Standing(12, 7, 3, 5, 2, 6, level), "playing with the mouse", sound=True)
        for level in LEVELS
    }
    done = [frozenset(level.id for level in LEVELS[:count]) for count in range(len(LEVELS) + 1)]
    return {
        "cautions": Cautions(),
        **{f"home {name}": screen for name, screen in standings.items()},
        **{f"levels {len(ids)}": Levels(LEVELS, ids) for ids in done},
        "no pedals": NoPedals(saved=False, plugged=0),
        "other pedals": NoPedals(saved=True, plugged=2),
        "unplugged": Unplugged(),
        "set end": SetEnd(blip, Tally(10, 7, 2, 61.2, 2, 7, False), blip),
        "set passed": SetEnd(blip, Tally(10, 8, 1, 71.2, 18, 8, True), BY_ID["blip-2-closer"]),
        "set of nothing": SetEnd(hold, Tally(0, 0, 3, None, 0, 0, False), hold),
        "reveal blip": reveal(blip),
        "reveal clean blip": reveal(blip, 0.9),
        "reveal hold": reveal(hold),
        **{f"reveal {reason}": ended(blip, reason) for reason in Reason if reason.void},
        "reveal no blip": ended(blip, Reason.NO_BLIP),
        "repeat blip": repeating(blip, (0.0, 0.0), (57.0, 0.0)),
        "repeat throttle": repeating(blip, (0.0, 0.0), (57.0, 30.0), (57.0, 30.0)),
        "repeat hold": repeating(hold, (0.0, 0.0), (70.0, 0.0), (70.0, 0.0)),
        **binding_screens(),
    }
