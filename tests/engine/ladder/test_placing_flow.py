"""The placing set without a window: up the stages, and what it opens."""

from dataclasses import replace

from drills.score import Reason
from engine.drill.set_end import Then
from engine.ladder.placing_flow import find_place
from engine.pedals.faults import fault_called
from engine.pedals.port import CalibratedPedals
from engine.pedals.rig import Rig
from engine.pedals.simulated import SIMULATED_TRAVEL
from engine.stage.actions import Action
from engine.stage.scene import Attended
from engine.store import History, ledger
from tests.engine.five.learning_foot import BY_ID, LEVELS, Learning
from tests.engine.walking import Step
from tests.stored import all_results

BEGIN = ("before placing", "Begin")
SEED = 6


def end(seen: list[object]) -> Step:
    """A step: look at the end, and go home."""

    def step(screen: Attended) -> None:
        seen.append(screen.details())
        screen.on_action(Action.BACK)

    return step


def placed(history: History, skill: float) -> dict[str, object]:
    """What the end says of a foot of some skill."""
    learning, seen = Learning(history, skill, SEED), list[object]()

    learning.walk(find_place(learning.setting, history, LEVELS), BEGIN, ("placed", end(seen)))

    [details] = seen
    assert isinstance(details, dict)
    return details


def test_a_beginner_begins_at_the_bottom_and_nothing_is_opened(history: History) -> None:
    details = placed(history, 0.0)

    assert (details["stage"], details["taken"]) == ("stillness", ()), f"seed {SEED}"
    assert ledger.placed(history) == frozenset()


def test_an_expert_is_placed_far_up_and_every_level_behind_is_open(history: History) -> None:
    details = placed(history, 1.0)

    taken = details["taken"]
    assert isinstance(taken, tuple)
    assert len(taken) >= 3, f"seed {SEED}"
    behind = {level.id for level in LEVELS if level.stage in taken}
    assert ledger.placed(history) == behind
    assert ledger.passed(history).isdisjoint(behind)
    assert details["level"] not in behind


def test_repetitions_of_a_placing_set_are_stored_under_their_own_levels(history: History) -> None:
    placed(history, 1.0)

    levels = [result.level for result in all_results(history)]

    assert levels[0] == "still-2-firm"
    assert {level for level in levels if BY_ID[level].placing} == set(levels)


def test_a_placing_set_left_early_counts_as_far_as_it_went(history: History) -> None:
    learning = Learning(history, 1.0, SEED)
    reveals = 0

    def leaves_the_third(screen: Attended) -> None:
        nonlocal reveals
        reveals += 1
        screen.on_action(Action.MENU if reveals == 3 else Action.GO)

    learning.walk(
        find_place(learning.setting, history, LEVELS),
        BEGIN,
        *[("reveal", leaves_the_third)] * 3,
        ("menu", "Leave the set"),
        ("placed", "Home"),
    )

    stillness = {level.id for level in LEVELS if level.stage == "stillness"}
    assert ledger.placed(history) == stillness, f"seed {SEED}"


def test_a_player_who_does_not_begin_goes_home(history: History) -> None:
    learning = Learning(history, 0.5)

    outcome = learning.walk(
        find_place(learning.setting, history, LEVELS), ("before placing", "Back")
    )

    assert outcome is Then.HOME
    assert list(all_results(history)) == []


def test_a_placing_set_left_for_home_counts_as_far_as_it_went(history: History) -> None:
    learning = Learning(history, 1.0, SEED)
    ends = [Action.GO, Action.GO, Action.MENU]

    def leaves_the_third(screen: Attended) -> None:
        screen.on_action(ends.pop(0))

    outcome = learning.walk(
        find_place(learning.setting, history, LEVELS),
        BEGIN,
        *[("reveal", leaves_the_third)] * 3,
        ("menu", "Home"),
    )

    assert outcome is Then.HOME
    stillness = {level.id for level in LEVELS if level.stage == "stillness"}
    assert ledger.placed(history) == stillness, f"seed {SEED}"


def test_three_repetitions_lost_to_the_pedals_are_told_in_a_placing_set(history: History) -> None:
    learning, fault = Learning(history, 1.0, SEED), fault_called("jumping")
    assert fault is not None
    pedals = learning.setting.rig.pedals
    assert pedals is not None
    jumping = fault.around(pedals.source, SIMULATED_TRAVEL, 1)
    learning.setting = replace(
        learning.setting,
        rig=Rig(learning.clock, pedals=CalibratedPedals(jumping, SIMULATED_TRAVEL)),
        stage=replace(learning.stage, listeners=(*learning.stage.listeners, jumping)),
    )

    learning.walk(
        find_place(learning.setting, history, LEVELS),
        BEGIN,
        ("pedal trouble", "Leave for now"),
        ("placed", "Home"),
    )

    reasons = [record.verdict.reason for _, record in learning.audience.records]
    assert reasons == [Reason.JUMPED] * 3
