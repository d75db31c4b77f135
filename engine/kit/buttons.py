"""Buttons of a menu: laid out side by side in a bar or below each other in a list, and drawn."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace

import pygame

from engine.kit import theme
from engine.kit.area import Area
from engine.kit.canvas import Canvas, Colour
from engine.kit.typeface import Weight
from engine.kit.widgets import BAR_TEXT, BESIDE, CAPITALS, GAP, PADDING, ROW, choices_top

Labels = Sequence[tuple[str, str]]
"""Choices of a menu as pairs of label and note, which may be empty."""


@dataclass(frozen=True)
class Button:
    """Choice of a menu with its place on the screen."""

    label: str
    """Name of the choice."""
    note: str
    """A few words in grey beside the label; empty for none."""
    box: Area
    """Place of the button."""
    size: float
    """Height of the label, in canvas units."""
    is_outlined: bool = False
    """Whether it has an outline while it is not selected."""


def list_top(count: int, top: float | None) -> float:
    """Top of a list of `count` choices: `top` where all of it has room, else it ends at the foot of
    a screen; in canvas units."""
    at_foot = choices_top(count)
    return at_foot if top is None else min(top, at_foot)


def in_list(canvas: Canvas, labels: Labels, top: float) -> list[Button]:
    """Buttons of a list from `top` down, in canvas units; a long note is cut."""
    buttons = []
    for number, (label, note) in enumerate(labels):
        room = theme.ACROSS - 2 * PADDING - canvas.measure(label, theme.BODY, Weight.BOLD) - GAP
        box = Area(theme.MARGIN, top + number * ROW, theme.ACROSS, ROW - 8)
        cut = canvas.cut(note, room, theme.SMALL) if note else ""
        buttons.append(Button(label, cut, box, theme.BODY))
    return buttons


def in_bar(
    canvas: Canvas, labels: Labels, note_room: float = 0.0, *, leaves: bool = False
) -> list[Button]:
    """Buttons side by side at the foot of a screen.

    The first is the widest and has room for its note, at least `note_room` canvas units. The last
    ends at the right margin if it `leaves` the menu, or stands apart from several others. Labels
    are as large as fits.
    """
    size, widths = _bar_widths(canvas, labels, theme.ACROSS, note_room)
    left, buttons = float(theme.MARGIN), []
    for number, ((label, note), width) in enumerate(zip(labels, widths, strict=True)):
        if number == len(labels) - 1 and (number > 1 or (leaves and number)):
            left = theme.WIDTH - theme.MARGIN - width
        box, is_first = Area(left, theme.BAR, width, theme.BAR_HEIGHT), number == 0
        buttons.append(Button(label, note if is_first else "", box, size, is_outlined=is_first))
        left += width + BESIDE
    return buttons


def draw_buttons(
    canvas: Canvas, buttons: Sequence[Button], selected: int, press: float
) -> list[pygame.Rect]:
    """Draw buttons, the selected one filled; returns the pixels that each covers.

    It fills with blue from left to right with `press`, from 0 to 1, while the brake is held past
    half.
    """
    places = []
    for number, button in enumerate(buttons):
        if number == selected:
            places.append(draw_highlight(canvas, button.box, press))
            _write(canvas, button, is_chosen=True)
        else:
            places.append(_draw_unselected(canvas, button))
    return places


def draw_between(canvas: Canvas, buttons: Sequence[Button], at: Area) -> list[pygame.Rect]:
    """Draw buttons with the highlight on its way from one to another; returns their pixels."""
    places = [_draw_unselected(canvas, button) for button in buttons]
    with canvas.clipped(draw_highlight(canvas, at, 0.0)):
        for button in buttons:
            _write(canvas, button, is_chosen=True)
    return places


def draw_highlight(canvas: Canvas, box: Area, press: float) -> pygame.Rect:
    """Draw the filled button behind the selected choice; returns the pixels it covers."""
    place = _draw_box(canvas, box, theme.TEXT)
    if press:
        _draw_box(canvas, replace(box, width=box.width * press), theme.BRAKE)
    return place


def _draw_unselected(canvas: Canvas, button: Button) -> pygame.Rect:
    """Draw a button that is not selected; returns the pixels it covers."""
    place = _draw_box(canvas, button.box, theme.GROUND)
    if button.is_outlined:
        _draw_box(canvas, button.box, theme.FAINT, 3)
    _write(canvas, button, is_chosen=False)
    return place


def _draw_box(canvas: Canvas, box: Area, colour: Colour, line: float = 0.0) -> pygame.Rect:
    """Draw a box with round corners, filled if `line` is 0; returns the pixels it covers."""
    corner, size = (box.left, box.top), (box.width, box.height)
    return canvas.box(corner, size, colour, theme.ROUND, line)


def _write(canvas: Canvas, button: Button, *, is_chosen: bool) -> None:
    """Write the label of a button, and its note where there is one."""
    box, size = button.box, button.size
    weight = Weight.BOLD if is_chosen else Weight.REGULAR
    middle = box.top + box.height / 2
    at = (box.left + PADDING, middle - CAPITALS * size)
    canvas.text(button.label, at, size, theme.GROUND if is_chosen else theme.TEXT, weight=weight)
    if button.note:
        right = (box.left + box.width - PADDING, middle - CAPITALS * theme.SMALL)
        colour = theme.INK if is_chosen else theme.QUIET
        canvas.text(button.note, right, theme.SMALL, colour, "right")


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
