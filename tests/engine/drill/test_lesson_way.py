"""Menu of the ways to blip: what moves in it, where, and what a player may choose."""

from __future__ import annotations

import numpy as np
import pygame
import pytest

from drills.trace import Sample, nanoseconds
from engine.drill.lesson_moves import HELD, LASTS, PEAK
from engine.drill.lesson_way import BLIPS, EVERY, STILL, WayMenu
from engine.drill.lesson_words import HOW_IT_GOES, WAYS
from engine.kit import theme
from engine.kit.foot_pose import Pressed, Way
from engine.stage.actions import Action
from tests.engine.drill.pictures import way_menu
from tests.engine.kit.recording_canvas import recorded


def test_the_feet_stand_side_by_side_from_margin_to_margin() -> None:
    areas = [way_menu(way, moves=True).moving_areas for way in Way]

    [(corner, size)], [(corner2, size2)] = areas
    assert size == size2
    assert corner[1] == corner2[1]
    assert corner[0] == theme.MARGIN
    assert corner2[0] + size2[0] == theme.WIDTH - theme.MARGIN
    assert corner2[0] - (corner[0] + size[0]) == 60


def test_the_foot_moves_from_the_first_reading_on() -> None:
    menu = WayMenu(Way.ROLL)
    menu.on_motion(allowed=True)
    places = [menu.movement()]

    for seconds in (7.0, 7.5, 8.0):
        menu.on_sample(Sample(0, 0.0, 0.0), nanoseconds(seconds))
        places.append(menu.movement())

    assert places == [0, 0, 30, 60]


def test_a_foot_blips_every_two_seconds_on_a_brake_that_stays() -> None:
    peaks = [BLIPS.at(STILL + EVERY * number) for number in range(4)]
    between = [BLIPS.at(STILL + 1 + EVERY * number) for number in range(3)]

    assert [peak.throttle for peak in peaks] == pytest.approx([PEAK] * 4)
    assert {peak.brake for peak in peaks} == {HELD}
    assert between == [Pressed(HELD, 0.0)] * 3
    assert LASTS == 3 * EVERY


@pytest.mark.parametrize("moves", [True, False])
@pytest.mark.parametrize("now", [None, Way.ROLL, Way.HEEL])
def test_each_foot_has_its_name_and_what_it_does_below(now: Way | None, moves: bool) -> None:
    canvas = recorded(way_menu(now, moves=moves))

    for way in Way:
        [((left, top), (width, height))] = way_menu(way, moves=True).moving_areas
        under = pygame.Rect(left - 8, top + height, width, 300)
        name, *does = [text for text in canvas.texts if under.contains(text.ink)][:3]
        assert name.text == WAYS[way]
        assert HOW_IT_GOES[way].startswith(does[0].text)
        assert all(abs(text.ink.left - left) < 8 for text in (name, does[0]))


@pytest.mark.parametrize("selected", [Way.ROLL, Way.HEEL])
def test_the_foot_that_is_not_selected_holds_the_brake_and_stays(selected: Way) -> None:
    pygame.font.init()
    drawn = []
    for seconds in (STILL, STILL + 0.2):
        surface = pygame.Surface((theme.WIDTH, theme.HEIGHT))
        way_menu(selected, moves=True, seconds=seconds).draw(surface, 0.0)
        drawn.append(pygame.surfarray.array3d(surface))

    for way in Way:
        [((x, y), (width, height))] = way_menu(way, moves=True).moving_areas
        area = slice(round(x), round(x + width)), slice(round(y), round(y + height))
        assert np.array_equal(drawn[0][area], drawn[1][area]) is (way is not selected)


def test_a_player_who_was_never_asked_and_goes_back_is_told_what_that_means() -> None:
    first, again = WayMenu(None), WayMenu(Way.HEEL)

    assert first.back_word == WAYS[Way.ROLL].lower()
    assert again.back_word != first.back_word
    first.on_action(Action.GO)
    assert first.outcome is Way.ROLL
