"""Five minutes by themselves, by feet alone, killed in the middle: in a real window."""

import pytest

from tests.game.checks import CHECKS, Check
from tests.game.days import Plays


@pytest.mark.parametrize("check", CHECKS, ids=lambda one: one.__name__.strip("_"))
def test_of_five_minutes_that_were_killed_and_taken_up_again(check: Check, plays: Plays) -> None:
    sat = plays.session()

    wrong = list(check(sat))

    assert wrong == []
