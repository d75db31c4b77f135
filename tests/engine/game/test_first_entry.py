"""Starting the game with an entry in place of the first home: a session, a warm-up or a trial."""

import numpy as np
import pytest

from engine.drill.demonstration import Demonstration
from engine.five.saved import sessions_on
from engine.game.entries import FIVE, TRIAL_AT_ONCE, WARM_UP
from engine.game.entry import Entry
from engine.game.flow import CAUTIONS_READ, play
from engine.game.offer import Offer
from engine.stage.scene import Attended
from engine.store import History
from engine.trial.saved import keep_new_trial
from engine.trial.trial import Ball, SetUp
from tests.engine.five.learning_foot import DATE, LEVELS, Learning, passes
from tests.engine.five.unattended import BAND, Seen, attend
from tests.engine.game.rigged import READ, Rigged
from tests.engine.pedals.joysticks import Pad
from tests.engine.walking import Step, back, choose, walk


@pytest.mark.parametrize("first_entry", [None, FIVE, WARM_UP, TRIAL_AT_ONCE])
def test_with_the_mouse_home_is_shown_in_place_of_an_entry(
    bare: Rigged, first_entry: Entry | None
) -> None:
    offered: list[object] = []

    def looks(screen: Attended) -> None:
        offered.append(screen.details()["choices"])
        back(screen)

    demo = Demonstration(LEVELS[0], 1, 3, 1.0)
    offer = Offer(LEVELS, BAND, demo, is_sized=True)
    rng = np.random.default_rng(1)
    flow = play(bare.rig, bare.stage, bare.history, offer, rng, lambda: DATE, first_entry)
    walk(flow, bare.clock, [READ, ("no pedals", "Try with the mouse"), ("home", looks)])

    assert not {"Five minutes", "Warm-up"} & set(offered[0])  # type: ignore[call-overload]
    assert sessions_on(bare.history, DATE.date()) == []


@pytest.mark.parametrize(
    ("first_entry", "first"),
    [(FIVE, "new: Light and still"), (WARM_UP, "warm-up: Light and still")],
)
def test_an_entry_at_the_start_begins_with_a_lesson_and_a_repetition(
    history: History, first_entry: Entry, first: str
) -> None:
    history.keep_setting(CAUTIONS_READ, True)
    learning = Learning(history, 0.9)
    rig, stage = learning.setting.rig, learning.setting.stage
    offer = Offer(LEVELS, BAND, Demonstration(LEVELS[0], 1, 3, 1.0))
    flow = play(rig, stage, history, offer, np.random.default_rng(1), lambda: DATE, first_entry)

    lesson = next(flow).screen
    back(lesson)
    screen = next(flow).screen
    back(screen)
    choose(next(flow).screen, "Home")

    assert lesson.name == "lesson"
    assert (screen.name, screen.details()["why"]) == ("repetition", first)
    assert next(flow).screen.name == "home"


def test_a_trial_at_the_start_begins_with_its_set_up_and_back_leads_home(
    history: History,
) -> None:
    history.keep_setting(CAUTIONS_READ, True)
    passes(history, *LEVELS)
    learning = Learning(history, 0.9)
    rig, stage = learning.setting.rig, learning.setting.stage
    offer = Offer(LEVELS, BAND, Demonstration(LEVELS[0], 1, 3, 1.0))
    flow = play(rig, stage, history, offer, np.random.default_rng(1), lambda: DATE, TRIAL_AT_ONCE)

    seen = learning.seen
    learning.walk(
        flow,
        ("set-up", back),
        ("home", "More"),
        ("more", "Try a foot position"),
        ("about trial", "Back"),
        ("home", "Leave"),
    )

    assert seen == ["set-up", "home", "more", "about trial", "home"]


def test_more_leads_back_to_a_current_trial(history: History) -> None:
    history.keep_setting(CAUTIONS_READ, True)
    passes(history, *LEVELS)
    arms = SetUp("ball"), SetUp("toes", ball=Ball.TOES)
    keep_new_trial(history, DATE, LEVELS[-1].id, arms, 6, 1)
    learning = Learning(history, 0.9)
    rig, stage = learning.setting.rig, learning.setting.stage
    offer = Offer(LEVELS, BAND, Demonstration(LEVELS[0], 1, 3, 1.0))
    flow = play(rig, stage, history, offer, np.random.default_rng(1), lambda: DATE)

    learning.walk(
        flow,
        ("home", "More"),
        ("more", "Try a foot position"),
        ("trial under way", "Back"),
        ("home", "Leave"),
    )

    assert learning.seen == ["home", "more", "trial under way", "home"]


def test_a_new_player_reads_the_cautions_and_sets_up_before_the_entry_begins(
    game: Rigged, pad: Pad
) -> None:
    demo = Demonstration(LEVELS[0], 1, 3, 1.0)
    offer = Offer(LEVELS, BAND, demo, is_sized=True)

    def begin(*steps: tuple[str, Step]) -> list[str]:
        seen: list[Seen] = []
        rng = np.random.default_rng(1)
        flow = play(game.rig, game.stage, game.history, offer, rng, lambda: DATE, FIVE)
        leaves: list[tuple[str, Step]] = [("repetition", back), ("menu", "Home"), ("home", "Leave")]
        attend(flow, game.clock, [*steps, *leaves], seen)
        return [name for name, _ in seen]

    first = begin(READ, *game.set_up(pad))
    game.rig.play_with(None)
    again = begin()

    assert first[-5:] == ["pedals found", "lesson", "repetition", "menu", "home"]
    assert again == ["repetition", "menu", "home"]
