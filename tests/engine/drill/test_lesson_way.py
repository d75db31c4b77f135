"""Menu of the ways to blip: what moves in it, where, and what a player may choose."""

from __future__ import annotations

import numpy as np
import pygame
import pytest

from drills.trace import Sample, nanoseconds
from engine.drill.lesson_moves import HELD, LASTS, PEAK
from engine.drill.lesson_way import BLIPS, EVERY, STILL, NoChange, WayMenu
from engine.drill.lesson_words import BOTH_RIGHT, HOW_IT_GOES, IN_SLOW_MOTION, LATER, WAYS
from engine.kit import theme
from engine.kit.foot_pose import Pressed, Way
from engine.stage.actions import Action
from engine.stage.scene import Pace
from tests.engine.drill.pictures import way_menu
from tests.engine.kit.recording_canvas import recorded, said


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


def test_the_menu_of_ways_offers_both_and_moves_the_selected_one() -> None:
    menu = way_menu(None, moves=True, seconds=0.8)
    first = menu.moving_areas
    menu.on_action(Action.NEXT)

    assert menu.details()["choices"] == [WAYS[Way.ROLL], WAYS[Way.HEEL]]
    assert menu.moving_areas != first
    assert menu.pace is Pace.SMOOTH
    menu.on_action(Action.GO)
    assert menu.outcome is Way.HEEL


@pytest.mark.parametrize("moves", [True, False])
def test_the_menu_of_ways_is_drawn_whole_once_another_way_is_selected(moves: bool) -> None:
    menu = way_menu(None, moves=moves, seconds=0.8)
    before = menu.appearance()

    menu.on_action(Action.NEXT)

    assert menu.appearance() != before


def test_the_menu_of_ways_selects_the_present_one_and_going_back_changes_nothing() -> None:
    menu = WayMenu(Way.HEEL)
    again = WayMenu(Way.HEEL)

    menu.on_action(Action.GO)
    again.on_action(Action.BACK)

    assert (menu.outcome, again.outcome) == (Way.HEEL, NoChange.NO_CHANGE)


def test_the_menu_of_ways_says_what_a_blip_is_for_to_a_player_who_was_never_asked() -> None:
    reason = "A blip of throttle speeds the engine up for the lower gear."

    asked, changed = (said(way_menu(now, moves=True)) for now in (None, Way.ROLL))

    assert reason in asked
    assert reason not in changed


def test_where_nothing_may_move_both_ways_are_shown_as_they_blip() -> None:
    menu = way_menu(None, moves=False)

    assert menu.pace is Pace.STILL
    assert (menu.moving_areas, menu.movement()) == ((), None)


def test_the_menu_of_ways_says_that_its_blips_are_slowed_where_they_move() -> None:
    said = [
        [text.text for text in recorded(way_menu(None, moves=moves)).texts]
        for moves in (True, False)
    ]

    assert f"{BOTH_RIGHT} {LATER} {IN_SLOW_MOTION}" in said[0]
    assert f"{BOTH_RIGHT} {LATER}" in said[1]
