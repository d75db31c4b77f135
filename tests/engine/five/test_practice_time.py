"""What counts as time of five minutes: practice, but no replay and no look at all figures."""

from dataclasses import replace

import pytest

from drills.level import Feedback
from drills.trace import Sample, nanoseconds
from engine.drill.reveal import Reveal
from engine.kit.looks import Look
from engine.stage.actions import Action
from engine.stage.scene import Attended
from engine.store import History
from tests.engine.five.unattended import HOLDS, Minutes, passed_on

REVEALED = [replace(level, feedback=Feedback.EVERY) for level in HOLDS]


@pytest.mark.parametrize("presses", [1, 2])
def test_a_replay_and_a_look_at_the_figures_take_nothing_of_the_time(
    history: History, presses: int
) -> None:
    passed_on(history, HOLDS[0], 0, took=4.0)
    three, looks = Minutes(history, levels=REVEALED), list[Look]()

    def study(screen: Attended) -> None:
        assert isinstance(screen, Reveal)
        three.clock.advance(nanoseconds(1.0))
        screen.on_sample(Sample(three.clock(), 0.0, 0.0), three.clock())
        for _ in range(presses):
            screen.on_action(Action.NEXT)
        looks.append(screen.looks.now)
        for _ in range(60):
            three.clock.advance(nanoseconds(10.0))
            screen.on_sample(Sample(three.clock(), 0.0, 0.0), three.clock())
        screen.on_action(Action.GO)

    three.play(
        ("reveal", study), ("reveal", "menu"), ("menu", "Leave for now"), ("day end", "Home")
    )

    took = [one.took or 0.0 for one in three.session.results]
    assert looks[0] is not Look.MAIN
    assert three.clock() > nanoseconds(600.0)
    assert sum(took) == pytest.approx(three.clock() / 1e9 - 600, abs=0.1)


def test_the_reveal_itself_counts_as_time(history: History) -> None:
    passed_on(history, HOLDS[0], 0, took=4.0)
    three = Minutes(history, levels=REVEALED)

    def read(screen: Attended) -> None:
        for _ in range(3):
            three.clock.advance(nanoseconds(0.9))
            screen.on_sample(Sample(three.clock(), 0.0, 0.0), three.clock())
        screen.on_action(Action.GO)

    three.play(("reveal", read), ("reveal", "menu"), ("menu", "Leave for now"), ("day end", "Home"))

    took = [one.took or 0.0 for one in three.session.results]
    assert took[1] - took[0] == pytest.approx(2.7, abs=0.3)
