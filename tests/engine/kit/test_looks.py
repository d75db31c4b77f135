"""Looks: the order in which a screen shows more, by holds, by keys and by both."""

import pytest

from engine.kit.looks import Look, Looks

ALL = (Look.OWN, Look.BEST, Look.FIGURES)
MAIN, OWN, BEST, FIGURES = Look.MAIN, Look.OWN, Look.BEST, Look.FIGURES


def holds(looks: Looks, times: int) -> list[Look]:
    """What so many holds show, each let go before the next."""
    seen = []
    for _ in range(times):
        looks.hold()
        seen.append(looks.now)
        looks.let_go()
        seen.append(looks.now)
    return seen


@pytest.mark.parametrize(
    ("order", "seen"),
    [
        (ALL, [OWN, MAIN, BEST, MAIN, OWN, MAIN]),
        ((OWN, FIGURES), [OWN, MAIN, OWN, MAIN, OWN, MAIN]),
        ((FIGURES,), [FIGURES, MAIN, FIGURES, MAIN, FIGURES, MAIN]),
        ((), [MAIN, MAIN, MAIN, MAIN, MAIN, MAIN]),
    ],
)
def test_each_hold_plays_the_next_replay_and_letting_go_leads_back(
    order: tuple[Look, ...], seen: list[Look]
) -> None:
    assert holds(Looks(order), 3) == seen


@pytest.mark.parametrize(
    ("order", "seen"),
    [
        (ALL, [OWN, BEST, FIGURES, MAIN, OWN]),
        ((FIGURES,), [FIGURES, MAIN, FIGURES, MAIN, FIGURES]),
        ((), [MAIN, MAIN, MAIN, MAIN, MAIN]),
    ],
)
def test_a_key_steps_through_all_of_them_and_back(
    order: tuple[Look, ...], seen: list[Look]
) -> None:
    looks, shown = Looks(order), []

    for _ in range(5):
        looks.step()
        shown.append(looks.now)

    assert shown == seen


def test_a_replay_that_is_held_to_its_end_leads_to_the_figures_and_on_to_the_best() -> None:
    looks, seen = Looks(ALL), []

    for _ in range(2):
        looks.hold()
        looks.finish()
        looks.hold()
        seen.append((looks.now, looks.is_held))
        looks.let_go()
        seen.append((looks.now, looks.is_held))

    assert seen == [(FIGURES, True), (MAIN, False)] * 2
    assert looks.after_hold is OWN


def test_a_replay_that_a_key_asked_for_stays_at_its_end_and_through_a_hold() -> None:
    looks = Looks(ALL)

    looks.step()
    looks.finish()
    looks.hold()
    held = looks.now
    looks.let_go()

    assert (held, looks.now) == (OWN, OWN)


def test_without_a_best_one_its_hold_and_its_key_show_the_figures() -> None:
    held, stepped = Looks(ALL), Looks(ALL)
    holds(held, 1)

    held.hold()
    held.pass_over()
    stepped.step()
    stepped.step()
    stepped.pass_over()

    assert (held.now, held.is_held, held.after_hold) == (FIGURES, True, OWN)
    assert (stepped.now, stepped.is_held, stepped.after_key) == (FIGURES, False, MAIN)


def test_a_key_during_a_hold_takes_what_is_shown_over() -> None:
    looks = Looks(ALL)

    looks.hold()
    looks.step()
    looks.let_go()

    assert (looks.now, looks.is_held) == (BEST, False)


@pytest.mark.parametrize(("look", "left"), [(OWN, MAIN), (BEST, MAIN), (FIGURES, FIGURES)])
def test_only_a_replay_is_left_without_being_asked(look: Look, left: Look) -> None:
    looks = Looks(ALL)
    while looks.now is not look:
        looks.step()

    looks.leave_replay()

    assert looks.now is left
