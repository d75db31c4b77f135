"""The mouse pointer: seen while the mouse moves, hidden once it rests or keys or feet act."""

from engine.stage.cursor import RESTS_AFTER, Cursor
from engine.stage.headless import ManualClock


def cursor() -> tuple[Cursor, list[bool]]:
    """A cursor, and what it was told to be: whether it is visible."""
    told: list[bool] = []
    return Cursor(told.append), told


def test_the_pointer_is_hidden_at_first_and_where_the_mouse_lay_shows_nothing() -> None:
    hidden, told = cursor()

    hidden.move((300, 200), 0)
    hidden.move((300, 200), 1)

    assert told == [False]
    assert not hidden.is_visible


def test_the_pointer_stays_while_the_mouse_moves_and_hides_once_it_rests() -> None:
    clock = ManualClock()
    moving, told = cursor()
    moving.move((0, 0), clock())

    for place in range(1, 6):
        clock.advance(RESTS_AFTER - 1)
        moving.look(clock())
        moving.move((place, 0), clock())
    assert told == [False, True]

    clock.advance(RESTS_AFTER - 1)
    moving.look(clock())
    assert moving.is_visible

    clock.advance(1)
    moving.look(clock())
    assert told == [False, True, False]


def test_keys_and_feet_hide_the_pointer_and_the_next_move_shows_it() -> None:
    acting, told = cursor()
    acting.move((0, 0), 0)
    acting.move((1, 0), 1)

    acting.hide()
    acting.hide()
    acting.move((2, 0), 2)

    assert told == [False, True, False, True]


def test_a_press_of_a_button_shows_the_pointer() -> None:
    pressed, told = cursor()

    pressed.click(0)

    assert told == [False, True]
