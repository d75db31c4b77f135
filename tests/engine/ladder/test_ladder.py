"""The ladder: which levels are open, and what stage each belongs to."""

from dataclasses import replace

from drills.kinds import KINDS
from drills.trace import Pedal
from engine.ladder.ladder import YOUR_OWN, State, ladder_stages
from engine.ladder.ladder_words import why_closed
from engine.practice.passes import SOUND
from tests.made import BLIP, HOLD

STILL = replace(HOLD, id="still", stage="stillness")
FIRST = replace(BLIP, id="first", stage="first blip", needs=("still",))
CLUTCHED = replace(
    BLIP, id="clutched", stage="clutch", pedals=(Pedal.BRAKE, Pedal.THROTTLE, Pedal.CLUTCH)
)
MINE = replace(HOLD, id="mine", stage="")
LEVELS = (STILL, FIRST, CLUTCHED, MINE)
TWO: frozenset[str] = frozenset({Pedal.BRAKE, Pedal.THROTTLE})


def test_a_level_is_open_once_what_it_needs_is_passed_or_was_placed() -> None:
    shut = ladder_stages(LEVELS, frozenset())[1].rungs[0].state
    passed = ladder_stages(LEVELS, frozenset({"still"}))[1].rungs[0].state
    placed = ladder_stages(LEVELS, frozenset(), frozenset({"still"}))[1].rungs[0].state

    assert (shut, passed, placed) == (State.CLOSED, State.OPEN, State.OPEN)


def test_in_a_try_out_nothing_needs_passing_first_and_pedals_are_needed_still() -> None:
    stages = ladder_stages(LEVELS, frozenset({"still"}), pedals=TWO, is_tryout=True)

    states = [rung.state for ladder_stage in stages for rung in ladder_stage.rungs]
    assert states == [State.PASSED, State.OPEN, State.LACKING, State.OPEN]
    assert ladder_stages(LEVELS, frozenset(), is_tryout=True)[1].rungs[0].state is State.OPEN


def test_a_level_that_was_placed_and_then_passed_is_passed() -> None:
    both = frozenset({"still"})

    assert ladder_stages(LEVELS, both, both)[0].rungs[0].state is State.PASSED
    assert ladder_stages(LEVELS, frozenset(), both)[0].rungs[0].state is State.PLACED


def test_a_level_without_its_pedal_says_so_whatever_it_needs() -> None:
    stages = ladder_stages(LEVELS, frozenset(), pedals=TWO)

    assert stages[2].rungs[0].state is State.LACKING
    assert not stages[2].is_open


def test_stages_come_in_the_order_of_the_levels_and_count_the_levels_done() -> None:
    stages = ladder_stages(LEVELS, frozenset({"still"}))

    assert [ladder_stage.name for ladder_stage in stages] == [
        "stillness",
        "first blip",
        "clutch",
        YOUR_OWN,
    ]
    assert [ladder_stage.done for ladder_stage in stages] == [1, 0, 0, 0]


def test_a_level_that_can_only_be_heard_says_so_without_sound_and_opens_again_with_it() -> None:
    heard = replace(BLIP, id="heard", kind=KINDS["counting"], stage="by itself")
    silent = ladder_stages([heard], frozenset(), pedals=TWO)
    loud = ladder_stages([heard], frozenset(), pedals=TWO | {SOUND})

    assert silent[0].rungs[0].state is State.UNHEARD
    assert why_closed(heard, silent, TWO) == "needs sound: turn it on under More"
    assert loud[0].rungs[0].state is State.OPEN


def test_a_level_that_lacks_a_pedal_and_sound_says_both() -> None:
    both = replace(CLUTCHED, kind=KINDS["counting"])

    assert why_closed(both, (), TWO) == "needs a clutch and sound"
