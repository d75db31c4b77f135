"""The outcome of a past trial while its repetitions are of no one definition."""

from collections.abc import Iterator
from pathlib import Path

import pytest

from drills.score import Reason, Verdict
from engine.practice.results import Purpose
from engine.stage.actions import Action
from engine.stage.scene import Attended
from engine.store import History, open_history
from engine.store.repetitions import add_repetition
from engine.trial.result import MIXED
from engine.trial.saved import end_trial
from engine.trial.trial import BLOCK
from tests.earlier import EARLIER, change
from tests.engine.trial.two_positions import Trying
from tests.engine.walking import Step, back
from tests.made import record

PAIRS = 6
COUNT = 2 * PAIRS * BLOCK
LOOK: tuple[str, Step] = ("about trial", "Past trials")
AWAY: tuple[str, Step] = ("about trial", back)


@pytest.fixture
def trying(tmp_path: Path) -> Iterator[Trying]:
    """A player with a past trial, played to its end."""
    with open_history(tmp_path, []) as history:
        made = Trying(history)
        trial = made.begin(PAIRS)
        for number in range(COUNT):
            measures = {"dip": 9.0 + number % 3, "rebound": 1.0, "settle": 0.2, "peak": 60.0}
            verdict = Verdict(Reason.CLEAN, 90.0, (), measures)
            tried = {"trial": trial.number, "block": number // BLOCK, "why": Purpose.TRIAL}
            add_repetition(history, record(verdict=verdict, trace=None, **tried))
        end_trial(history, trial.number)
        yield made


def wait(history: History, which: str, fixed: int) -> None:
    """Make repetitions those of an earlier definition, which wait or cannot be remeasured."""
    what = f"definition = {EARLIER}, fixed = {fixed}"
    change(history.path.parent, f"UPDATE repetition SET {what} WHERE {which}")


def looked_at(trying: Trying, ends: tuple[str, Step]) -> tuple[str, object]:
    """Line of the past trial in the list, and the reason not to tell its outcome, if any."""
    lines: list[str] = []

    def choose(screen: Attended) -> None:
        choices = screen.details()["choices"]
        assert isinstance(choices, list)
        lines.append(choices[0])
        screen.on_action(Action.GO)

    trying.walk(LOOK, ("past trials", choose), ends, ("past trials", back), AWAY)
    reasons = [details["why"] for details in trying.details_of("trial not told")]
    return lines[0], reasons[0] if reasons else None


def test_it_waits_while_the_history_is_remeasured(trying: Trying) -> None:
    wait(trying.history, "id = 1", fixed=0)

    line, reason = looked_at(trying, ("trial not told", "Back"))

    assert line.endswith(": waits to be measured again")
    assert str(reason).startswith("Measured again: 0 of 1 earlier repetitions.")


def test_it_cannot_be_told_where_some_could_not_be_remeasured(trying: Trying) -> None:
    wait(trying.history, "id = 1", fixed=1)

    line, reason = looked_at(trying, ("trial not told", "Back"))

    assert line.endswith(": cannot be told")
    assert reason == MIXED


def test_it_is_told_where_all_of_it_is_of_one_earlier_definition(trying: Trying) -> None:
    wait(trying.history, "1", fixed=1)

    line, reason = looked_at(trying, ("trial result", "Done"))

    assert line.endswith(": no difference you would notice")
    assert reason is None
