"""Picture of the ladder as a climb: stages are steps, levels are marks, a shoe is the player."""

from __future__ import annotations

import math
from collections.abc import Mapping, Sequence
from dataclasses import dataclass

import pygame

from drills.level import Level
from engine.kit import shoe, theme
from engine.kit.canvas import Canvas, Colour, Point
from engine.kit.typeface import Weight
from engine.ladder.climb_names import ABOVE, Box, name_height, place_name
from engine.ladder.ladder import YOUR_OWN, LadderStage, State, stage_of
from engine.ladder.rise import Rise
from engine.ladder.state_marks import draw_state, draw_state_reached

MOST_STEPS = 10
"""Most stages drawn at once as steps, as a count: the shipped ones and some of the player's own."""
WIDEST = 420
"""Largest width of a step, in canvas units, so that even two of them look like steps."""
BETWEEN = 8
"""Gap between two steps of the climb, in canvas units."""
INSIDE = 12
"""Padding inside a step of the climb, in canvas units."""
MOST_MARKS = 8
"""Most marks of levels on a step, as a count; of more levels only the number is written."""
PITCH = 36
"""Distance from the mark of one level to the next, in canvas units."""
UNDERLINE = (26.0, 5.0)
"""Width and height of the bar below the mark of the level to practise next, in canvas units."""
MOST_RISE = 64
"""Largest height by which a step rises above the previous one, in canvas units."""
LIFT = 26
"""Largest height of the shoe above the way from one step to another, in canvas units."""
EDGE = 5
"""Width of the line along the top of a step, in canvas units."""


@dataclass(frozen=True)
class ClimbArea:
    """Upper and lower edge of the climb on a screen."""

    top: float
    """Upper edge of the whole climb, shoe included, in canvas units from the top of the screen."""
    bottom: float
    """Ground that the steps stand on, in canvas units from the top of the screen."""


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
    rise: Rise | None = None,
    fresh: Colour = theme.TEXT,
) -> list[pygame.Rect]:
    """Draw the climb; returns the pixels of each stage with its name, none if it is not drawn.

    `following` is the level to practise next: the shoe stands on its stage, and a bar is below its
    mark. `selected` is the index of the selected stage, if there is one; `rise` is what is on its
    way, and `fresh` the colour of the marks that it changes. A side branch is hollow.
    """
    stands = stage_of(stages, following)
    first = _first_seen(len(stages), stands if selected is None else selected)
    seen = range(first, min(first + MOST_STEPS, len(stages)))
    steps = dict(zip(seen, _steps(canvas, area, stages, seen, stands), strict=True))
    places = [pygame.Rect(0, 0, 0, 0) for _ in stages]
    for number, step in steps.items():
        aside = is_aside(stages, number)
        drawn = _step(canvas, step, stages[number], aside, number == selected)
        places[number] = _with_name(canvas, drawn, number == stands)
        _marks(canvas, step, stages[number], following, rise, fresh)
    foot = steps.get(stands)
    if foot is not None:
        stood = [
            step for number, step in steps.items() if rise and stages[number].name == rise.stood
        ]
        shoe.draw_shoe(canvas, _on_its_way(stood[0] if stood else foot, foot, rise))
    _names(canvas, area, steps, stages, stands, selected)
    return places


def underline(canvas: Canvas, centre: Point) -> None:
    """Draw a bar below the mark of the level to practise next."""
    width, height = UNDERLINE
    corner = (centre[0] - width / 2, centre[1] + PITCH / 2 - height / 2)
    canvas.box(corner, (width, height), theme.BRAKE, height / 2)


def _first_seen(count: int, wanted: int) -> int:
    """Index of the first stage to draw, such that the `wanted` one is drawn too."""
    return max(0, min(wanted - MOST_STEPS // 2, count - MOST_STEPS))


def _steps(
    canvas: Canvas, area: ClimbArea, stages: Sequence[LadderStage], seen: range, stands: int
) -> list[Box]:
    """Areas of the steps drawn: each rises above the last, with room for its name and the shoe."""
    width = min((theme.WIDTH - 2 * theme.MARGIN + BETWEEN) / len(seen), WIDEST)
    low = EDGE + 2 * INSIDE + PITCH * max(_rows(stages[number], width) for number in seen)
    room = area.bottom - area.top - low
    above = [
        name_height(canvas, stages[number].name, width - BETWEEN)
        + (shoe.TALL if number == stands else 0.0)
        for number in seen
    ]
    rises = [(room - need) / place for place, need in enumerate(above) if place]
    rise = min([MOST_RISE, *rises])
    return [
        Box(left, area.bottom - low - rise * place, left + width - BETWEEN, area.bottom)
        for place in range(len(seen))
        for left in [theme.MARGIN + place * width]
    ]


def _with_name(canvas: Canvas, step: pygame.Rect, has_shoe: bool) -> pygame.Rect:
    """Pixels of a step and of the room for its name above it, and for the shoe if it is there."""
    room = round((ABOVE + shoe.TALL * has_shoe) * canvas.scale)
    return pygame.Rect(step.left, step.top - room, step.width, step.height + room)


def _columns(width: float) -> int:
    """Most marks side by side on a step of a width in canvas units."""
    return max(int((width - BETWEEN) / PITCH), 1)


def _rows(ladder_stage: LadderStage, width: float) -> int:
    """Number of rows that the marks of a stage's levels take on its step."""
    count = len(ladder_stage.rungs)
    return -(-count // _columns(width)) if count <= MOST_MARKS else 1


def _step(
    canvas: Canvas, step: Box, ladder_stage: LadderStage, aside: bool, selected: bool
) -> pygame.Rect:
    """Draw one step, hollow if no stage needs it (`aside`); returns the pixels it covers."""
    corner, size = (step.left, step.top), (step.right - step.left, step.bottom - step.top)
    line = theme.TEXT if ladder_stage.is_open else theme.FAINT
    ground = theme.GROUND if aside else theme.RAISED
    place = canvas.box(corner, size, theme.BAND if selected else ground)
    if aside or selected:
        canvas.box(corner, size, theme.TEXT if selected else theme.FAINT, 0, EDGE - 1)
    canvas.box(corner, (size[0], EDGE), line)
    return place


def _on_its_way(stood: Box, stands: Box, rise: Rise | None) -> Point:
    """Heel of the shoe between two steps: it rises first, and comes down on the step it is at."""
    share = 1.0 if rise is None else rise.share
    lift = LIFT * math.sin(math.pi * share) if stood is not stands else 0.0
    return (
        _heel(stood) + (_heel(stands) - _heel(stood)) * share,
        stood.top + (stands.top - stood.top) * share - lift,
    )


def _marks(
    canvas: Canvas,
    step: Box,
    ladder_stage: LadderStage,
    following: Level,
    rise: Rise | None,
    fresh: Colour,
) -> None:
    """Draw the marks of a stage's levels on its step, or how many are done if there are many."""
    top = step.top + EDGE + INSIDE
    count = len(ladder_stage.rungs)
    if count > MOST_MARKS:
        words = f"{ladder_stage.done} of {count}"
        colour = theme.TEXT if ladder_stage.is_open else theme.QUIET
        canvas.text(words, (step.left + INSIDE, top - INSIDE / 2), theme.SMALL, colour)
        return
    columns = -(-count // _rows(ladder_stage, step.right - step.left + BETWEEN))
    for number, rung in enumerate(ladder_stage.rungs):
        row, column = divmod(number, columns)
        centre = (step.left + INSIDE / 2 + (column + 0.5) * PITCH, top + (row + 0.5) * PITCH)
        if rise and rung.level.id in rise.marks:
            draw_state_reached(canvas, centre, rung.state, rise.share, fresh)
        else:
            is_closed = rung.state is State.CLOSED
            draw_state(canvas, centre, rung.state, theme.QUIET if is_closed else theme.TEXT)
        if rung.level.id == following.id:
            underline(canvas, centre)


def _heel(step: Box) -> float:
    """Left end of the shoe on a step, in canvas units: its toe is at the step's right end."""
    return max(step.right + BETWEEN - shoe.LENGTH, step.left)


def _names(
    canvas: Canvas,
    area: ClimbArea,
    steps: Mapping[int, Box],
    stages: Sequence[LadderStage],
    stands: int,
    selected: int | None,
) -> None:
    """Write the names of the stages above their steps, those near the player first.

    A name that has no place is left out.
    """
    main = stands if selected is None else selected
    room = Box(theme.MARGIN, area.top, theme.WIDTH - theme.MARGIN, area.bottom)
    taken = list(steps.values())
    if stands in steps:
        step = steps[stands]
        taken.append(Box(_heel(step), step.top - shoe.TALL, _heel(step) + shoe.LENGTH, step.top))
    for number in sorted(steps, key=lambda number: abs(number - main)):
        weight = Weight.BOLD if number == main else Weight.REGULAR
        tall = shoe.TALL if number == stands else 0.0
        name = stages[number].name
        placed = place_name(canvas, name, steps[number], weight, room, taken, tall)
        if placed is None:
            continue
        taken.append(placed.area)
        colour = theme.TEXT if stages[number].is_open else theme.QUIET
        x, y = placed.corner
        for line, words in enumerate(placed.lines):
            at = (x, y + line * theme.SMALL)
            canvas.text(words, at, theme.SMALL, colour, weight=weight)
