"""The climb: the stages as steps going up, a mark for each level, and where the player stands."""

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
"""steps seen at once: the stages that ship and the player's own; more would be too narrow."""
WIDEST = 420
"""units, a step, so that two of them still look like steps."""
BETWEEN = 8
"""units, between two steps."""
INSIDE = 10
"""units, kept free inside a step."""
A_ROW = 4
"""marks side by side on a step."""
MOST_MARKS = 8
"""marks on a step; for more levels a count is written."""
PITCH = 46
"""units, from one mark to the next."""
RADIUS = 15
"""units, of a mark: as tall as the smallest capitals."""
KEPT = {State.RETAINED: (10, 18), State.WELL_RETAINED: (7, 14, 21)}
"""units, the disc and the rings round it, of what was shown again on later days."""
RING = 4
"""units, width of such a ring."""
FOOT = ((0, 0), (74, 0), (76, 8), (70, 16), (50, 22), (36, 30), (31, 50), (5, 50), (3, 28), (0, 14))
"""units, right and up from the heel: a shoe seen from its side."""
HEADROOM = 62
"""units above the highest step, for the shoe."""
MOST_RISE = 64
"""units, from one step to the next."""
EDGE = 4
"""units, width of the lines of a step."""


@dataclass(frozen=True)
class ClimbArea:
    """Where on the picture the steps are."""

    top: float
    """units, above which nothing is drawn."""
    bottom: float
    """units, where the steps stand."""


def done_words(stages: Sequence[LadderStage]) -> str:
    """How much of some stages is passed, such as "3 of 6 passed"."""
    rungs = [rung for ladder_stage in stages for rung in ladder_stage.rungs]
    placed = any(rung.state is State.PLACED for rung in rungs)
    done = sum(ladder_stage.done for ladder_stage in stages)
    return f"{done} of {len(rungs)} passed{' or placed' if placed else ''}"


def stage_of(stages: Sequence[LadderStage], level: Level) -> int:
    """Which of the stages a level is in, the first where it is in none."""
    found = (
        number
        for number, ladder_stage in enumerate(stages)
        if any(rung.level.id == level.id for rung in ladder_stage.rungs)
    )
    return next(found, 0)


def is_aside(stages: Sequence[LadderStage], number: int) -> bool:
    """Whether a stage is a branch: others come after it, and none of them needs it."""
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
    """Draw the steps; the pixels each stage covers, none where it is out of sight.

    `following` is the level to practise next: the shoe stands on its stage, and a frame is round
    its mark. `selected` is the stage that is chosen now, if one is. A branch is drawn hollow.
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
    """How a level stands: full, half full, empty, a dot, or a dash; a ring round what is kept."""
    x, y = centre
    match state:
        case State.PASSED:
            canvas.disc(centre, RADIUS, colour)
        case State.RETAINED | State.WELL_RETAINED:
            disc, *rings = KEPT[state]
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
    """What is round the mark of the next level."""
    side = PITCH - 2
    corner = (centre[0] - side / 2, centre[1] - side / 2)
    canvas.box(corner, (side, side), theme.TEXT, 6, 3)


def _first_seen(count: int, wanted: int) -> int:
    """The first of the stages in sight, so that the wanted one is."""
    return max(0, min(wanted - MOST_STEPS // 2, count - MOST_STEPS))


def _rows(ladder_stage: LadderStage) -> int:
    """count, rows of marks."""
    return 2 if A_ROW < len(ladder_stage.rungs) <= MOST_MARKS else 1


def _height(stages: Sequence[LadderStage]) -> float:
    """units, the lowest step: a name and the marks under it."""
    return 2 * INSIDE + theme.SMALL + PITCH * max(map(_rows, stages)) + EDGE


def _step(canvas: Canvas, corner: Point, size: Point, aside: bool, selected: bool) -> pygame.Rect:
    """One step, hollow where nothing needs it; the pixels it covers."""
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
    """The name of a stage, and under it the marks of its levels."""
    middle = corner[0] + width / 2
    top = corner[1] + EDGE + INSIDE
    colour = theme.TEXT if ladder_stage.is_open else theme.QUIET
    name = canvas.cut(ladder_stage.name, width - 2 * INSIDE, theme.SMALL)
    canvas.text(name, (middle, top), theme.SMALL, colour, "centre")
    top += theme.SMALL + INSIDE / 2
    if len(ladder_stage.rungs) > MOST_MARKS:
        said = f"{ladder_stage.done} of {len(ladder_stage.rungs)}"
        canvas.text(said, (middle, top), theme.SMALL, colour, "centre")
        return
    columns = -(-len(ladder_stage.rungs) // _rows(ladder_stage))
    for number, rung in enumerate(ladder_stage.rungs):
        row, column = divmod(number, columns)
        x = middle + (column - (columns - 1) / 2) * PITCH
        _mark_of(canvas, (x, top + (row + 0.5) * PITCH), rung, rung.level.id == following.id)


def _mark_of(canvas: Canvas, centre: Point, rung: LadderLevel, is_next: bool) -> None:
    """The mark of a level, in a frame where it is the next one."""
    mark(canvas, centre, rung.state)
    if is_next:
        frame(canvas, centre)


def _shoe(canvas: Canvas, heel: Point) -> None:
    """Where the player stands."""
    canvas.shape([(heel[0] + right, heel[1] - up) for right, up in FOOT], theme.TEXT)
