"""Session by feet alone in a real window, killed in the middle and started again."""

import pytest

from tests.game.checks import CHECKS, Check
from tests.game.days import ScriptedDays


@pytest.mark.parametrize("check", CHECKS, ids=lambda check: check.__name__.strip("_"))
def test_a_session_that_was_killed_and_continued(check: Check, days: ScriptedDays) -> None:
    faults = list(check(days.session()))

    assert faults == []
