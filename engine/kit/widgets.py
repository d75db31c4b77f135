"""Widgets that screens share: the hint at the foot, the spirit level, the large figure."""

from __future__ import annotations

import math
from dataclasses import replace

import pygame

from engine.kit import theme
from engine.kit.canvas import Canvas, Point
from engine.kit.typeface import Weight
from engine.pedals.rig import Means

ROW = 72
"""Height of a row of a menu, a choice with the gap to the next one, in canvas units."""
GAP = 40
"""Smallest gap between the label of a choice and its note, in canvas units."""
BESIDE = 20
"""Gap between two menu choices that stand side by side, in canvas units."""
PADDING = 34
"""Space left and right of a label on its button, in canvas units."""
BAR_TEXT = 64
"""Height of the labels in a bar of choices where there is room, in canvas units."""
CAPITALS = 0.3
"""Distance from the top of a line to the middle of its capitals, as a share of its height."""
FEET = ("Brake past half", "throttle tap", "two taps")
"""Gestures of the feet that choose in a menu, as the hints name them."""
FIGURE_TOP = 140
"""Top of the large figure, in canvas units."""
FIGURE_WORDS_TOP = 312
"""Top of the words under the large figure, in canvas units."""
FIGURE_WORDS = theme.SMALL + 4
"""Height of the words under the large figure, in canvas units."""
BOTTOM = theme.BAR + theme.BAR_HEIGHT
"""Bottom of the last choice of a menu, in canvas units from the top of the screen."""


def choices_top(count: int) -> float:
    """Top of a list of `count` choices that ends at the foot of a screen, in canvas units."""
    return BOTTOM - count * ROW


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


def menu_hint(means: Means, several: bool, back: str, *, feet: bool) -> str:
    """Hint of a menu, in which the feet may only go back unless `feet` choose."""
    if feet or not means.feet:
        return hint(means, several, back)
    others = hint(replace(means, feet=False), several, back)
    return f"Brake and throttle: {back}    {others}" if back else others


def foot(canvas: Canvas, text: str) -> None:
    """Write the hint in grey at the foot of the screen."""
    canvas.text(text, (theme.WIDTH / 2, theme.FOOT), theme.SMALL, theme.QUIET, "centre")


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


def large_figure(canvas: Canvas, value: str, words: str) -> float:
    """Draw the one large figure of a screen at its upper right, its words below.

    Returns the left edge of what it covers, in canvas units.
    """
    right = float(theme.WIDTH - theme.MARGIN)
    at = (right, FIGURE_TOP)
    canvas.text(value, at, theme.FIGURE, theme.BRAKE, "right", weight=Weight.BOLD)
    canvas.text(words, (right, FIGURE_WORDS_TOP), FIGURE_WORDS, theme.QUIET, "right")
    wide = canvas.measure(value, theme.FIGURE, Weight.BOLD)
    return right - max(wide, canvas.measure(words, FIGURE_WORDS))


def ring(canvas: Canvas, centre: Point, share: float) -> None:
    """Draw a ring of which a `share`, 1 to 0, is left: the time until a screen goes on."""
    radius, line = 24.0, 5.0
    canvas.disc(centre, radius, theme.BAND, line)
    turns = [2 * math.pi * min(max(share, 0.0), 1.0) * step / 48 for step in range(49)]
    along = radius - line / 2
    points = [
        (centre[0] + along * math.sin(turn), centre[1] - along * math.cos(turn)) for turn in turns
    ]
    if share > 0:
        canvas.curve(points, theme.QUIET, line)


def icon() -> pygame.Surface:
    """Icon of the game's window: a bubble between two lines, as in a spirit level."""
    surface = pygame.Surface((64, 64))
    surface.fill(theme.GROUND)
    pygame.draw.circle(surface, theme.BRAKE, (32, 32), 13)
    pygame.draw.circle(surface, theme.TEXT, (28, 28), 3)
    for x in (12, 50):
        pygame.draw.rect(surface, theme.TEXT, (x, 12, 3, 40))
    return surface
