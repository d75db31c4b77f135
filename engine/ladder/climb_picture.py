"""Picture of the ladder as a climb: stages are steps, levels are marks, a shoe is the player."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass

import pygame

from drills.level import Level
from engine.kit import theme
from engine.kit.canvas import Canvas, Colour, Point
from engine.kit.charts import Paper
from engine.ladder.ladder import YOUR_OWN, LadderLevel, LadderStage, State

MOST_STEPS = 8
"""Most stages drawn at once as steps, as a count: the shipped ones and the player's own."""
WIDEST = 420
"""Largest width of a step, in canvas units, so that even two of them look like steps."""
BETWEEN = 8
"""Gap between two steps of the climb, in canvas units."""
INSIDE = 10
"""Padding inside a step of the climb, in canvas units."""
A_ROW = 4
"""Most marks of levels side by side on a step, as a count."""
MOST_MARKS = 8
"""Most marks of levels on a step, as a count; of more levels only the number is written."""
PITCH = 46
"""Distance from the mark of one level to the next, in canvas units."""
RADIUS = 15
"""Radius of the mark of a level, in canvas units: as tall as the smallest capitals."""
RETAINED = {State.RETAINED: (10, 18), State.WELL_RETAINED: (7, 14, 21)}
"""Radii of the disc and of the rings around it that mark a retained level, in canvas units."""
RING = 4
"""Line width of a ring around the mark of a retained level, in canvas units."""
FOOT = ((0, 0), (74, 0), (76, 8), (70, 16), (50, 22), (36, 30), (31, 50), (5, 50), (3, 28), (0, 14))
"""Outline of the shoe from its side: points in canvas units right of its heel and above it."""
HEADROOM = 62
"""Room for the shoe above the highest step of the climb, in canvas units."""
MOST_RISE = 64
"""Largest height by which a step rises above the previous one, in canvas units."""
EDGE = 4
"""Width of the line along the top of a step, in canvas units."""


@dataclass(frozen=True)
class ClimbArea:
    """Upper and lower edge of the climb on a screen."""

    top: float
    """Upper edge of the whole climb, shoe included, in canvas units from the top of the screen."""
    bottom: float
    """Ground that the steps stand on, in canvas units from the top of the screen."""


def done_words(stages: Sequence[LadderStage]) -> str:
    """How many levels of these stages are passed, in words such as "3 of 6 passed"."""
    rungs = [rung for ladder_stage in stages for rung in ladder_stage.rungs]
    placed = any(rung.state is State.PLACED for rung in rungs)
    done = sum(ladder_stage.done for ladder_stage in stages)
    return f"{done} of {len(rungs)} passed{' or placed' if placed else ''}"


def stage_of(stages: Sequence[LadderStage], level: Level) -> int:
    """Index of the stage that holds this level; 0 if none does."""
    numbers = (
        number
        for number, ladder_stage in enumerate(stages)
        if any(rung.level.id == level.id for rung in ladder_stage.rungs)
    )
    return next(numbers, 0)


def is_aside(stages: Sequence[LadderStage], number: int) -> bool:
    """Whether a stage is a side branch: there are later stages, and none of them needs it."""
    ids = {rung.level.id for rung in stages[number].rungs}
    later = [ladder_stage for ladder_stage in stages[number + 1 :] if ladder_stage.name != YOUR_OWN]
    needs = {
        need for ladder_stage in later for rung in ladder_stage.rungs for need in rung.level.needs
    }
    return bool(later) and ids.isdisjoint(needs)


def climb_picture(
    canvas: Canvas,
    area: ClimbArea,
    stages: Sequence[LadderStage],
    following: Level,
    selected: int | None = None,
) -> list[pygame.Rect]:
    """Draw the climb; returns the pixels that each stage covers, none if it is not drawn.

    `following` is the level to practise next: the shoe stands on its stage, and its mark is framed.
    `selected` is the index of the stage selected now, if there is one. A side branch is hollow.
    """
    stands = stage_of(stages, following)
    first = _first_seen(len(stages), stands if selected is None else selected)
    seen = range(first, min(first + MOST_STEPS, len(stages)))
    width = min((theme.WIDTH - 2 * theme.MARGIN + BETWEEN) / len(seen), WIDEST)
    lowest = _height(stages)
    room = area.bottom - area.top - HEADROOM - lowest
    rise = min(room / max(len(seen) - 1, 1), MOST_RISE)
    places = [pygame.Rect(0, 0, 0, 0) for _ in stages]
    for place, number in enumerate(seen):
        left = theme.MARGIN + place * width
        top = area.bottom - lowest - rise * place
        size = (width - BETWEEN, area.bottom - top)
        aside = is_aside(stages, number)
        places[number] = _step(canvas, (left, top), size, aside, number == selected)
        _face(canvas, (left, top), size[0], stages[number], following)
        if number == stands:
            _shoe(canvas, (left + size[0] / 2 - FOOT[1][0] / 2, top - EDGE))
    return places


def mark(canvas: Paper, centre: Point, state: State, colour: Colour = theme.TEXT) -> None:
    """Draw the mark for the state of a level: a disc, half disc, circle, dot or dash, or rings."""
    x, y = centre
    match state:
        case State.PASSED:
            canvas.disc(centre, RADIUS, colour)
        case State.RETAINED | State.WELL_RETAINED:
            disc, *rings = RETAINED[state]
            canvas.disc(centre, disc, colour)
            for ring in rings:
                canvas.disc(centre, ring, colour, RING)
        case State.PLACED:
            turns = [math.pi * turn / 24 for turn in range(25)]
            half = [(x + RADIUS * math.cos(a), y + RADIUS * math.sin(a)) for a in turns]
            canvas.disc(centre, RADIUS, colour, 4)
            canvas.shape(half, colour)
        case State.OPEN:
            canvas.disc(centre, RADIUS, colour, 4)
        case State.CLOSED:
            canvas.disc(centre, RADIUS * 0.35, colour)
        case State.LACKING:
            canvas.line((x - RADIUS * 0.8, y), (x + RADIUS * 0.8, y), colour, 5)


def frame(canvas: Canvas, centre: Point) -> None:
    """Draw a frame around the mark of the level to practise next."""
    side = PITCH - 2
    corner = (centre[0] - side / 2, centre[1] - side / 2)
    canvas.box(corner, (side, side), theme.TEXT, 6, 3)


def _first_seen(count: int, wanted: int) -> int:
    """Index of the first stage to draw, such that the `wanted` one is drawn too."""
    return max(0, min(wanted - MOST_STEPS // 2, count - MOST_STEPS))


def _rows(ladder_stage: LadderStage) -> int:
    """Number of rows that the marks of a stage's levels take on its step."""
    return 2 if A_ROW < len(ladder_stage.rungs) <= MOST_MARKS else 1


def _height(stages: Sequence[LadderStage]) -> float:
    """Height of the lowest step, in canvas units: room for its name and the marks below."""
    return 2 * INSIDE + theme.SMALL + PITCH * max(map(_rows, stages)) + EDGE


def _step(canvas: Canvas, corner: Point, size: Point, aside: bool, selected: bool) -> pygame.Rect:
    """Draw one step, hollow if no stage needs it (`aside`); returns the pixels it covers."""
    place = canvas.box(corner, size, theme.BAND if selected else theme.RAISED)
    if aside:
        canvas.box(corner, size, theme.GROUND)
        canvas.box(corner, size, theme.FAINT, 0, EDGE)
    if selected:
        canvas.box(corner, size, theme.TEXT, 0, 2 * EDGE)
    elif not aside:
        canvas.box(corner, (size[0], EDGE), theme.FAINT)
    return place


def _face(
    canvas: Canvas, corner: Point, width: float, ladder_stage: LadderStage, following: Level
) -> None:
    """Draw the name of a stage on its step, and the marks of its levels below."""
    middle = corner[0] + width / 2
    top = corner[1] + EDGE + INSIDE
    colour = theme.TEXT if ladder_stage.is_open else theme.QUIET
    name = canvas.cut(ladder_stage.name, width - 2 * INSIDE, theme.SMALL)
    canvas.text(name, (middle, top), theme.SMALL, colour, "centre")
    top += theme.SMALL + INSIDE / 2
    if len(ladder_stage.rungs) > MOST_MARKS:
        count = f"{ladder_stage.done} of {len(ladder_stage.rungs)}"
        canvas.text(count, (middle, top), theme.SMALL, colour, "centre")
        return
    columns = -(-len(ladder_stage.rungs) // _rows(ladder_stage))
    for number, rung in enumerate(ladder_stage.rungs):
        row, column = divmod(number, columns)
        x = middle + (column - (columns - 1) / 2) * PITCH
        _mark_of(canvas, (x, top + (row + 0.5) * PITCH), rung, rung.level.id == following.id)


def _mark_of(canvas: Canvas, centre: Point, rung: LadderLevel, is_next: bool) -> None:
    """Draw the mark of a level, with a frame if it is the level to practise next."""
    mark(canvas, centre, rung.state)
    if is_next:
        frame(canvas, centre)


def _shoe(canvas: Canvas, heel: Point) -> None:
    """Draw the shoe that marks the player's stage; `heel` is the back end of its sole."""
    canvas.shape([(heel[0] + right, heel[1] - up) for right, up in FOOT], theme.TEXT)
