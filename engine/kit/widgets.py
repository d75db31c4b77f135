"""Widgets that screens share: choices, the spirit level, figures, and the hint at the foot."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import pygame

from engine.kit import theme
from engine.kit.canvas import Canvas, Point
from engine.pedals.rig import Means

ROW = 72
"""Height of a row of a menu, a choice with the gap to the next one, in canvas units."""
GAP = 40
"""Smallest gap between the label of a choice and its note, in canvas units."""
BESIDE = 20
"""Gap between two menu choices that stand side by side, in canvas units."""
FEET = ("Brake past half", "throttle tap", "two taps")
"""Gestures of the feet that choose in a menu, as the hints name them."""
APART = 30
"""Smallest gap between two figures that stand side by side, in canvas units."""
CLOSE = 60
"""Gap between two figures under which they read as one number, in canvas units."""
FLAG = 34
"""Width of the flag at a figure that missed its limit, in canvas units."""
BOTTOM = 1000
"""Bottom of the last choice of a menu, in canvas units from the top of the screen."""


def choices_top(count: int) -> float:
    """Top of the first of a menu's `count` choices, in canvas units from the top of the screen."""
    return BOTTOM - count * ROW


def choices(
    canvas: Canvas,
    labels: Sequence[tuple[str, str]],
    selected: int,
    press: float,
    beside: int = 1,
) -> list[pygame.Rect]:
    """Draw the choices of a menu, pairs of label and note; returns the pixels that each covers.

    The selected one is marked; the mark fills from left to right with `press`, from 0 to 1, while
    the brake is held past half. The last `beside` choices stand side by side.
    """
    places = []
    for number, (label, note) in enumerate(labels):
        corner, width = _row_of(number, len(labels), beside)
        size = (width, ROW - 10)
        chosen = number == selected
        place = canvas.box(corner, size, theme.RAISED if chosen else theme.GROUND, 10)
        if chosen:
            if press > 0:
                canvas.box(corner, (width * press, size[1]), theme.FAINT, 10)
            x, middle = corner[0] + 20, corner[1] + size[1] / 2
            canvas.shape([(x, middle - 14), (x, middle + 14), (x + 20, middle)], theme.TEXT)
        colour = theme.TEXT if chosen else theme.QUIET
        text_top = corner[1] + (size[1] - theme.BODY * 0.7) / 2
        canvas.text(label, (corner[0] + 64, text_top), theme.BODY, colour)
        if note:
            room = width - 64 - canvas.measure(label) - 24 - GAP
            right = (corner[0] + width - 24, text_top + 5)
            fitting = canvas.fitted(note, room, theme.SMALL)
            canvas.text(fitting, right, theme.SMALL, theme.QUIET, "right")
        places.append(place)
    return places


def _row_of(number: int, count: int, beside: int) -> tuple[Point, float]:
    """Corner and width of a menu choice; of those side by side the first is twice as wide."""
    full = theme.WIDTH - 2 * theme.MARGIN
    rows = count - beside + 1
    row, column = min(number, rows - 1), max(number - rows + 1, 0)
    left, width = float(theme.MARGIN), float(full)
    if beside > 1 and row == rows - 1:
        share = (full - (beside - 1) * BESIDE) / (beside + 1)
        left += column * (share + BESIDE) + (share if column else 0)
        width = share if column else 2 * share
    return (left, choices_top(rows) + row * ROW), width


def hint(means: Means, several: bool, back: str) -> str:
    """Line that says how to choose in a menu with the input methods at hand.

    `several` is whether there are several choices; `back` says what going back does, and is empty
    if it does nothing. Wheel buttons are numbered from 1.
    """
    ways = [
        (("Brake past half", "Enter", "button 1"), "choose" if several else "go on"),
        (("throttle tap", "Tab", "button 2") if several else (), "next"),
        (("two taps",) if several and means.feet else (), "previous"),
        (("Esc", "button 3") if back else (), back),
    ]
    parts = []
    for names, does in ways:
        usable = [
            name
            for name in names
            if (means.feet or name not in FEET) and (means.buttons or not name.startswith("button"))
        ]
        parts += [f"{', '.join(usable)}: {does}"] if usable else []
    return "    ".join(parts)


def foot(canvas: Canvas, text: str) -> None:
    """Write the hint in grey at the foot of the screen."""
    canvas.text(text, (theme.WIDTH / 2, 1022), theme.SMALL, theme.QUIET, "centre")


def level(canvas: Canvas, centre: Point, width: float, lean: float) -> None:
    """Draw the spirit level: its bubble is left if the foot is too light, right if too heavy.

    `lean` is the deviation as a share of the tolerance band: at -1 and 1 the bubble is on a line.
    """
    x, y = centre
    height = width / 9
    line_at = width / 6
    canvas.box((x - width / 2, y - height / 2), (width, height), theme.RAISED, height / 2)
    canvas.box((x - width / 2, y - height / 2), (width, height), theme.FAINT, height / 2, 3)
    radius = height * 0.34
    reach = width / 2 - height / 2
    bubble = x + min(max(lean * line_at, -reach), reach)
    canvas.disc((bubble, y), radius, theme.BRAKE)
    canvas.disc((bubble - radius * 0.3, y - radius * 0.3), radius * 0.25, theme.TEXT)
    for side in (-1, 1):
        mark = x + side * (line_at + radius)
        canvas.line((mark, y - height * 0.62), (mark, y + height * 0.62), theme.TEXT, 4)


@dataclass(frozen=True)
class Figure:
    """Number with its name, as screens draw it."""

    name: str
    """Name of the number, in a word or two."""
    value: str
    """Number with its unit, as text."""
    note: str = ""
    """A few words in grey below the number; empty for none."""
    failed: bool = False
    """Whether a flag marks it as outside its limit."""


def figures(canvas: Canvas, corner: Point, width: float, row: Sequence[Figure]) -> None:
    """Draw numbers with their names side by side, over a width in canvas units.

    Their columns are alike, or as wide as what is in them where numbers would come too close.
    """
    step = width / max(len(row), 1)
    steps = [step] * len(row)
    wide = [_width(figure, canvas) for figure in row]
    if wide and max(wide) + CLOSE > step and sum(wide) + CLOSE * len(row) <= width:
        steps = [each + (width - sum(wide)) / len(row) for each in wide]
    rooms = [
        (figure.value, each - (FLAG + 16) * figure.failed - APART)
        for figure, each in zip(row, steps, strict=True)
    ]
    size = _fitting(rooms, canvas)
    for number, figure in enumerate(row):
        x, y = corner[0] + sum(steps[:number]), corner[1]
        canvas.text(figure.name, (x, y), theme.SMALL, theme.QUIET)
        if figure.failed:
            _flag(canvas, (x, y + 42))
        left = x + (FLAG + 16 if figure.failed else 0)
        canvas.text(figure.value, (left, y + 42 + (theme.LARGE - size) * 0.7), size)
        if figure.note:
            canvas.text(figure.note, (x, y + 108), theme.SMALL, theme.QUIET)


def _width(figure: Figure, canvas: Canvas) -> float:
    """Width of a number, its name and its note at their full sizes, in canvas units."""
    value = canvas.measure(figure.value, theme.LARGE) + (FLAG + 16) * figure.failed
    names = (canvas.measure(text, theme.SMALL) for text in (figure.name, figure.note))
    return max(value, *names)


def _fitting(values: Sequence[tuple[str, float]], canvas: Canvas) -> float:
    """Largest text size, up to LARGE, at which each value fits the width given with it."""
    wide = [canvas.measure(value, theme.LARGE) / room for value, room in values if room > 0]
    return max(theme.LARGE / max([1.0, *wide]), float(theme.SMALL))


def _flag(canvas: Canvas, corner: Point) -> None:
    """Draw a small flag on a pole, the mark of a figure outside its limit."""
    x, y = corner
    canvas.line((x + 4, y), (x + 4, y + 56), theme.TEXT, 5)
    canvas.shape([(x + 4, y), (x + FLAG, y + 16), (x + 4, y + 32)], theme.TEXT)


def icon() -> pygame.Surface:
    """Icon of the game's window: a bubble between two lines, as in a spirit level."""
    surface = pygame.Surface((64, 64))
    surface.fill(theme.GROUND)
    pygame.draw.circle(surface, theme.BRAKE, (32, 32), 13)
    pygame.draw.circle(surface, theme.TEXT, (28, 28), 3)
    for x in (12, 50):
        pygame.draw.rect(surface, theme.TEXT, (x, 12, 3, 40))
    return surface
