"""Where choices, headings and lead sentences stand: at the same place on every screen."""

from collections.abc import Sequence
from itertools import pairwise
from typing import cast

import pygame
import pytest

from engine.kit import theme, widgets
from engine.kit.base import Choice, Menu
from engine.kit.canvas import Fonts
from tests.engine.kit.recording_canvas import recorded
from tests.engine.pictures import every_screen
from tests.engine.test_legible import drawn

SIZE = (theme.WIDTH, theme.HEIGHT)
RIGHT = theme.WIDTH - theme.MARGIN


class Bar(Menu[int]):
    """Menu whose choices stand side by side at the foot."""

    in_a_bar = True


class List(Menu[int]):
    """Menu whose choices begin right below its heading where there is room."""

    list_top = theme.LIST


def places(menu: Menu[int]) -> list[pygame.Rect]:
    """Pixels of each choice of a menu, whose buttons are all the boxes it draws."""
    return recorded(menu).boxes


@pytest.mark.parametrize(("back", "leaves"), [(2, True), (1, False)])
def test_the_last_of_two_choices_stands_at_the_right_margin_if_it_goes_back(
    back: int, leaves: bool
) -> None:
    first, last = places(Bar([Choice("One", 1), Choice("Two", 2)], back=back))

    assert (last.right == RIGHT) is leaves
    assert leaves or last.left - first.right == widgets.BESIDE


def test_the_only_choice_stands_at_the_left_margin() -> None:
    [only] = places(Bar([Choice("Back", 1)], back=1))

    assert only.left == theme.MARGIN


def test_the_last_of_several_choices_stands_apart_from_them() -> None:
    *_, last = places(Bar([Choice(name, number) for number, name in enumerate("ABC")], back=0))

    assert last.right == RIGHT


@pytest.mark.parametrize("count", [2, 9, 10])
def test_a_list_begins_below_its_heading_unless_it_would_leave_the_screen(count: int) -> None:
    rows = places(List([Choice(str(number), number) for number in range(count)], back=0))

    assert rows[0].top == min(theme.LIST, widgets.choices_top(count))
    assert rows[-1].bottom <= widgets.BOTTOM


def test_every_lead_sentence_right_after_a_heading_stands_at_the_same_place() -> None:
    pygame.font.init()
    fonts, tops = Fonts(), {}
    for name, screen in every_screen().items():
        if isinstance(screen, Menu):
            for heading, lead in pairwise(drawn(screen, fonts, SIZE).texts):
                if (heading.size, lead.size) == (theme.LARGE, theme.LEAD):
                    tops[name] = lead.ink.top

    assert len(tops) > 30
    assert {name: top for name, top in tops.items() if abs(top - theme.BELOW) > 4} == {}


def test_curves_and_marks_end_above_a_bar_of_choices() -> None:
    screens = {
        name: recorded(screen)
        for name, screen in every_screen().items()
        if isinstance(screen, Menu) and screen.in_a_bar
    }

    low = [
        name
        for name, canvas in screens.items()
        if any(y > theme.BAR for _, points in canvas.curves for _, y in points)
        or any(start[1] > theme.BAR for start, _ in canvas.lines)
        or any(y > theme.BAR for (_, y), _ in canvas.discs)
    ]

    assert len(screens) > 100
    assert low == []


def test_the_hint_names_going_back_as_the_choice_that_does_the_same() -> None:
    menus = [screen for screen in every_screen().values() if isinstance(screen, Menu)]
    named = [menu for menu in menus if menu.back_word != Menu.back_word]

    odd = [
        (menu.name, menu.back_word, menu.details()["choices"])
        for menu in named
        if not any(
            str(label).lower().startswith(menu.back_word)
            for label in cast(Sequence[object], menu.details()["choices"])
        )
    ]

    assert len(named) > 30
    assert odd == []
