"""What the end of a set says of the cost of counting: only where its level is one of counting."""

from drills.score import Reason, Verdict
from engine.drill.set_log import SetLog
from engine.practice.counting_cost import LEAST
from engine.store import History
from engine.store.repetitions import add_repetition
from tests.engine.five.counting_levels import EASY
from tests.engine.five.unattended import DATE
from tests.made import BLIP, record


def test_a_set_of_counting_tells_the_cost_and_one_of_blips_does_not(history: History) -> None:
    for number in range(2 * LEAST):
        counts = number % 2 == 1
        measures: dict[str, float | None] = {"dip": 9.0 + 5 * counts, "peak": 60.0, "settle": 0.3}
        answer = {"knocks": 5.0, "counted": 5.0} if counts else {}
        verdict = Verdict(Reason.CLEAN, 90.0, (), measures | answer)
        add_repetition(history, record(level=EASY.id, kind="counting", verdict=verdict, at=DATE))
    counting, blips, tried = SetLog(EASY, history), SetLog(BLIP, history), SetLog(EASY, None)

    today = DATE.date()

    assert counting.cost_words(today).startswith("Counting costs you 5.0 points, likely ")
    assert blips.cost_words(today) == ""
    assert tried.cost_words(today) == ""
