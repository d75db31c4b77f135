"""The picture of the climb: steps, marks that differ by shape, the shoe and the next level."""

from itertools import combinations, pairwise

import numpy as np
import pygame
import pytest

from drills.level import Level
from engine.kit.canvas import Canvas, Colour, Fonts, Point
from engine.kit.level_marks import RADIUS
from engine.kit.shoe import SOLE, TALL, UPPER
from engine.kit.typeface import Weight
from engine.ladder.climb_names import ABOVE, INSET, Box, place_name
from engine.ladder.climb_picture import (
    BETWEEN,
    MOST_STEPS,
    PITCH,
    UNDERLINE,
    ClimbArea,
    climb_picture,
    is_aside,
)
from engine.ladder.ladder import LadderStage, State, stage_of
from engine.ladder.ladder_words import done_words
from engine.ladder.level_files import SHIPPED, load_levels
from engine.ladder.state_marks import draw_state
from tests.engine.kit.recording_canvas import RecordingCanvas, recorded
from tests.engine.ladder.pictures import home, ladder
from tests.engine.ladder.stages import SIZES, climbed, made_levels, ten_stages
from tests.made import level

LEVELS = made_levels()
AREA = ClimbArea(130.0, 800.0)
SIZE = (1920, 1080)


class Shaped(RecordingCanvas):
    """Keeps every filled polygon too."""

    def __init__(self) -> None:
        pygame.font.init()
        super().__init__(SIZE, Fonts())
        self.shapes: list[list[Point]] = []

    def shape(self, points: list[Point], colour: Colour) -> None:  # type: ignore[override]
        """Draw it, and keep where it is."""
        self.shapes.append(list(points))
        super().shape(points, colour)


def drawn(
    stages: tuple[LadderStage, ...], following: Level, selected: int | None = None
) -> tuple[Shaped, list[pygame.Rect]]:
    """The climb, and the pixels of its steps without their names and the shoe."""
    canvas = Shaped()
    places = climb_picture(canvas, AREA, stages, following, selected)
    stands = stage_of(stages, following)
    above = [ABOVE + TALL * (number == stands) for number in range(len(places))]
    return canvas, [
        pygame.Rect(place.left, place.top + up, place.width, place.height - up)
        for place, up in zip(places, above, strict=True)
    ]


def looks(state: State) -> np.ndarray:
    """The pixels of a mark, as lit or not."""
    surface = pygame.Surface(SIZE)
    canvas = Canvas(surface, Fonts())
    canvas.clear()
    draw_state(canvas, (PITCH, PITCH), state)
    return pygame.surfarray.array_red(surface)[: 2 * PITCH, : 2 * PITCH] > 128


@pytest.mark.parametrize(("one", "other"), [*combinations(State, 2)])
def test_any_two_states_differ_in_a_fifth_of_the_mark_without_any_colour(
    one: State, other: State
) -> None:
    pygame.font.init()

    differing = np.count_nonzero(looks(one) != looks(other))

    most = max(np.count_nonzero(looks(one)), np.count_nonzero(looks(other)))
    assert differing > 0.2 * most


def test_a_passed_level_is_full_and_a_placed_one_half_full() -> None:
    pygame.font.init()
    area = np.pi * RADIUS**2

    assert np.count_nonzero(looks(State.PASSED)) == pytest.approx(area, rel=0.08)
    assert 0.55 * area < np.count_nonzero(looks(State.PLACED)) < 0.85 * area


def test_the_steps_go_up_from_left_to_right_without_touching() -> None:
    _, steps = drawn(*climbed(LEVELS))

    assert len(steps) == len(SIZES)
    assert all(one.right < other.left for one, other in pairwise(steps))
    assert all(one.top > other.top for one, other in pairwise(steps))
    assert {step.bottom for step in steps} == {round(AREA.bottom)}


def test_every_stage_stands_on_its_step_with_a_mark_a_level() -> None:
    canvas, steps = drawn(*climbed(LEVELS, passed=len(LEVELS)))
    inks = {text.text: text.ink for text in canvas.texts}

    marks = [sum(step.collidepoint(centre) for centre, _ in canvas.discs) for step in steps]

    assert all(
        step.left <= inks[name].left and 0 < step.top - inks[name].bottom < ABOVE + TALL
        for step, name in zip(steps, SIZES, strict=True)
    )
    assert marks == list(SIZES.values())


@pytest.mark.parametrize("passed", [0, 3, 4, 10, 18, 30, 34])
def test_the_shoe_stands_on_the_step_of_the_next_level_and_nowhere_else(passed: int) -> None:
    stages, following = climbed(LEVELS, passed)
    canvas, steps = drawn(stages, following)

    parts = [shape for shape in canvas.shapes if len(shape) in (len(UPPER), len(SOLE))]
    shoe = [point for part in parts for point in part]

    assert len(parts) == 2
    stands = steps[stage_of(stages, following)]
    assert stages[stage_of(stages, following)].name == following.stage
    assert all(stands.left < x <= stands.right + BETWEEN + 1 for x, _ in shoe)
    assert max(y for _, y in shoe) == pytest.approx(stands.top, abs=2)
    assert min(y for _, y in shoe) >= AREA.top


def test_only_the_next_level_has_a_bar_below_its_mark() -> None:
    canvas, steps = drawn(*climbed(LEVELS, passed=6))

    [bar] = [box for box in canvas.boxes if box.width == UNDERLINE[0]]
    [below] = [
        number
        for number, ((x, y), _) in enumerate(canvas.discs[SIZES["stillness"] :])
        if abs(x - bar.centerx) < 2 and 0 < bar.top - y < PITCH / 2
    ]

    assert steps[1].contains(bar)
    assert below == 2


def test_a_stage_is_a_branch_where_stages_after_it_do_without_it() -> None:
    stages, _ = climbed(made_levels("Mine"))

    assert [ladder_stage.name for n, ladder_stage in enumerate(stages) if is_aside(stages, n)] == [
        "clutch"
    ]


def test_levels_done_are_counted_and_placing_is_mentioned() -> None:
    played, _ = climbed(LEVELS, passed=5)
    both, _ = climbed(LEVELS, passed=5, placed=1)

    assert done_words(played) == "5 of 34 passed"
    assert [done_words([ladder_stage]) for ladder_stage in played[:2]] == [
        "4 of 4 passed",
        "1 of 6 passed",
    ]
    assert done_words(both[:1]) == "4 of 4 passed or placed"


def test_a_stage_of_more_levels_than_have_room_says_how_many_are_done() -> None:
    own = [level(id=f"own-{number}", title=f"Own {number}", stage="") for number in range(30)]

    canvas, _ = drawn(*climbed(own, passed=12))

    assert sorted(text.text for text in canvas.texts) == ["12 of 30", "your own"]


@pytest.mark.parametrize("passed", [0, 9, 21, 30, 42])
def test_the_climb_names_all_of_ten_stages_wherever_the_player_stands(passed: int) -> None:
    stages, following = climbed(ten_stages(), passed)

    canvas, _ = drawn(stages, following)

    written = " ".join(text.text for text in canvas.texts)
    assert len(stages) == MOST_STEPS
    assert all(
        ladder_stage.name in written or set(ladder_stage.name.split()) <= set(written.split())
        for ladder_stage in stages
    )


@pytest.mark.parametrize("size", [(640, 360), (1280, 720), (1920, 1080), (2560, 1440)])
def test_home_names_every_stage_that_is_shipped_in_a_window_of_any_size(
    size: tuple[int, int],
) -> None:
    pygame.font.init()
    levels, canvas = load_levels([SHIPPED]), RecordingCanvas(size, Fonts())

    home(levels).paint(canvas, 0.0)

    written = {word for text in canvas.texts for word in text.text.split()}
    assert {word for level in levels for word in level.stage.split()} <= written


def test_no_name_is_cut_or_lies_on_a_step_or_on_another_name() -> None:
    names = ["heel and toe " * 4, "Q" * 60, "short", "w" * 11, "a b", "c", "d", "e"]
    levels = [level(id=f"a-{n}", stage=name.strip()) for n, name in enumerate(names)]

    canvas, steps = drawn(*climbed(levels))

    inks = [text.ink for text in canvas.texts]
    assert {"short", "w" * 11, "a b", "c", "d", "e"} <= {text.text for text in canvas.texts}
    assert not any("..." in text.text for text in canvas.texts)
    assert not [ink for ink in inks for step in steps if step.colliderect(ink)]
    assert not [pair for pair in combinations(inks, 2) if pair[0].colliderect(pair[1])]


def test_a_name_wider_than_the_last_step_ends_with_it() -> None:
    canvas, name = Shaped(), "everything together"
    step = Box(1600.0, 400.0, 1700.0, 800.0)
    room = Box(140.0, 0.0, 1700.0, 400.0)

    placed = place_name(canvas, name, step, Weight.REGULAR, room, [])

    assert placed is not None
    assert placed.lines == (name,)
    assert placed.area.right == step.right - INSET


def test_the_climb_of_the_ladder_stands_where_that_of_home_stood() -> None:
    names = {ladder_stage.name for ladder_stage in climbed(LEVELS, 3)[0]}

    on_home, on_ladder = (
        {text.text: text.ink for text in recorded(screen).texts if text.text in names}
        for screen in (home(LEVELS, 3), ladder(LEVELS, 3))
    )

    assert on_home == on_ladder
    assert len(on_home) > 1
