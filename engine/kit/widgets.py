"""Widgets that screens share: choices, the spirit level, figures, and the hint at the foot."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass

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
APART = 30
"""Smallest gap between two figures that stand side by side, in canvas units."""
CLOSE = 60
"""Gap between two figures under which they read as one number, in canvas units."""
FLAG = 34
"""Width of the flag at a figure that missed its limit, in canvas units."""
BOTTOM = theme.BAR + theme.BAR_HEIGHT
"""Bottom of the last choice of a menu, in canvas units from the top of the screen."""

Labels = Sequence[tuple[str, str]]
"""Choices of a menu as pairs of label and note, which may be empty."""


def choices_top(count: int) -> float:
    """Top of a list of `count` choices that ends at the foot of a screen, in canvas units."""
    return BOTTOM - count * ROW


def choices(
    canvas: Canvas, labels: Labels, selected: int, press: float, top: float
) -> list[pygame.Rect]:
    """Draw the choices of a menu as a list from `top` down; returns the pixels that each covers.

    The selected one is a filled button. It fills with blue from left to right with `press`, from 0
    to 1, while the brake is held past half.
    """
    places = []
    left, width = float(theme.MARGIN), float(theme.WIDTH - 2 * theme.MARGIN)
    for number, (label, note) in enumerate(labels):
        corner, size = (left, top + number * ROW), (width, float(ROW - 8))
        chosen = number == selected
        places.append(_button(canvas, corner, size, press if chosen else None))
        _label(canvas, (left + PADDING, corner[1]), size[1], label, theme.BODY, chosen)
        if note:
            weight = Weight.BOLD if chosen else Weight.REGULAR
            room = width - 2 * PADDING - canvas.measure(label, theme.BODY, weight) - GAP
            right = (corner[0] + width - PADDING, corner[1] + size[1] / 2)
            _note(canvas, right, canvas.cut(note, room, theme.SMALL), chosen)
    return places


def bar(
    canvas: Canvas,
    labels: Labels,
    selected: int,
    press: float,
    note_room: float = 0.0,
    *,
    leaves: bool = False,
) -> list[pygame.Rect]:
    """Draw the choices of a menu side by side at its foot; returns the pixels that each covers.

    The first is the widest and has room for its note, at least `note_room` canvas units. The last
    ends at the right margin if it `leaves` the menu, or stands apart from several others. Labels
    are as large as fits.
    """
    full = float(theme.WIDTH - 2 * theme.MARGIN)
    size, widths = _bar_widths(canvas, labels, full, note_room)
    left, places = float(theme.MARGIN), []
    for number, ((label, note), width) in enumerate(zip(labels, widths, strict=True)):
        if number == len(labels) - 1 and (number > 1 or (leaves and number)):
            left = theme.WIDTH - theme.MARGIN - width
        corner, chosen = (left, float(theme.BAR)), number == selected
        box = (width, float(theme.BAR_HEIGHT))
        places.append(_button(canvas, corner, box, press if chosen else None, outline=number == 0))
        _label(canvas, (left + PADDING, theme.BAR), box[1], label, size, chosen)
        if note and number == 0:
            _note(canvas, (left + width - PADDING, theme.BAR + box[1] / 2), note, chosen)
        left += width + BESIDE
    return places


def _bar_widths(
    canvas: Canvas, labels: Labels, full: float, note_room: float
) -> tuple[float, list[float]]:
    """Text height and widths of the buttons of a bar that fits into a width in canvas units."""
    room = max(canvas.measure(labels[0][1], theme.SMALL), note_room)
    note = room + GAP if room else 0.0
    spaces = 2 * PADDING * len(labels) + BESIDE * (len(labels) - 1) + note
    largest = sum(canvas.measure(label, BAR_TEXT, Weight.BOLD) for label, _ in labels)
    # Text is nearly as wide as it is high: only sizes about the one that fits are measured.
    near = min(BAR_TEXT, max(theme.SMALL, 2 * round(BAR_TEXT * (full - spaces) / largest / 2) + 2))
    for size in range(near, theme.SMALL - 1, -2):
        texts = [canvas.measure(label, size, Weight.BOLD) for label, _ in labels]
        if sum(texts) + spaces <= full or size == theme.SMALL:
            break
    widths = [text + 2 * PADDING for text in texts]
    return size, [widths[0] + note, *widths[1:]]


def _button(
    canvas: Canvas, corner: Point, size: Point, press: float | None, outline: bool = False
) -> pygame.Rect:
    """Draw a button, filled if `press` is not None; returns the pixels it covers."""
    chosen = press is not None
    place = canvas.box(corner, size, theme.TEXT if chosen else theme.GROUND, theme.ROUND)
    if press:
        canvas.box(corner, (size[0] * press, size[1]), theme.BRAKE, theme.ROUND)
    if outline and not chosen:
        canvas.box(corner, size, theme.FAINT, theme.ROUND, 3)
    return place


def _label(
    canvas: Canvas, corner: Point, height: float, label: str, size: float, chosen: bool
) -> None:
    """Write the label of a button whose box begins at the corner's height."""
    at = (corner[0], corner[1] + height / 2 - CAPITALS * size)
    colour = theme.GROUND if chosen else theme.TEXT
    canvas.text(label, at, size, colour, weight=Weight.BOLD if chosen else Weight.REGULAR)


def _note(canvas: Canvas, right: Point, note: str, chosen: bool) -> None:
    """Write the note of a button, ending at a point at half its height."""
    at = (right[0], right[1] - CAPITALS * theme.SMALL)
    canvas.text(note, at, theme.SMALL, theme.INK if chosen else theme.QUIET, "right")


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
    canvas.text(value, (right, 140), theme.FIGURE, theme.BRAKE, "right", weight=Weight.BOLD)
    canvas.text(words, (right, 312), theme.SMALL + 4, theme.QUIET, "right")
    wide = canvas.measure(value, theme.FIGURE, Weight.BOLD)
    return right - max(wide, canvas.measure(words, theme.SMALL + 4))


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
        top = y + 42 + (theme.LARGE - size) * 0.7
        canvas.text(figure.value, (left, top), size, weight=Weight.BOLD)
        if figure.note:
            canvas.text(figure.note, (x, y + 108), theme.SMALL, theme.QUIET)


def _width(figure: Figure, canvas: Canvas) -> float:
    """Width of a number, its name and its note at their full sizes, in canvas units."""
    value = canvas.measure(figure.value, theme.LARGE, Weight.BOLD) + (FLAG + 16) * figure.failed
    names = (canvas.measure(text, theme.SMALL) for text in (figure.name, figure.note))
    return max(value, *names)


def _fitting(values: Sequence[tuple[str, float]], canvas: Canvas) -> float:
    """Largest text size, up to LARGE, at which each value fits the width given with it."""
    wide = [
        canvas.measure(value, theme.LARGE, Weight.BOLD) / room for value, room in values if room > 0
    ]
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
