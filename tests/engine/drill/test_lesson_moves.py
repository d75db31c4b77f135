"""Movements of the lessons: they do what the drills ask for, and nothing else."""

from itertools import pairwise

import numpy as np
import pytest

from drills.kinds import KINDS
from drills.kinds.asked_size import BlippingKind, peaks_asked
from drills.kinds.run import COUNTED
from drills.kinds.zone import COUNTED as COUNTED_OF_ZONE
from drills.level import Level
from drills.trace import Pedal
from engine.drill.lesson_moves import (
    BLIP,
    EASING,
    EASING_BLIPS,
    FULL,
    HELD,
    LASTS,
    MOVES,
    PEAK,
    lesson_name,
)
from engine.drill.lesson_words import EXPLAINED, OVER, WORDS, Term, terms_of
from engine.kit.foot_pose import REACH, Pressed, Way, pose_of
from engine.ladder.level_files import SHIPPED, load_band, load_levels
from tests.made import Floats, level

LEVELS = (*load_levels([SHIPPED]), load_band())
ZONE = "zone"
FRAME = 1 / 60
TIMES = np.arange(0.0, 2 * LASTS, FRAME)
FASTEST = 60.0 / 0.15 * FRAME
"""Largest step of a pedal from picture to picture, in %: a foot moves 60 % in 0.15 s."""
FARTHEST = 0.3
"""Largest step of the edge of the foot from picture to picture, in cm."""
UNDER_THE_BRAKE = sorted(set(MOVES) - {"hold", "squeeze", EASING})
ON_HELD_BRAKE = sorted(set(UNDER_THE_BRAKE) - {EASING_BLIPS, ZONE})


def course(name: str) -> list[Pressed]:
    """The pedals of a lesson in each picture, twice around."""
    return [MOVES[name].at(float(time)) for time in TIMES]


def brakes(name: str) -> Floats:
    """The brake of a lesson in each picture, twice around, in %."""
    return np.array([pressed.brake for pressed in course(name)])


@pytest.mark.parametrize("played", LEVELS, ids=lambda played: played.id)
def test_every_level_has_a_lesson_but_those_that_mix_others(played: Level) -> None:
    name = lesson_name(played)

    if played.kind.name == "mixed":
        assert name is None
    else:
        assert name is not None
        moves = MOVES[name]
        asked = pedals_of(played)
        assert (bool(moves.blips), moves.clutch is not None) == (
            Pedal.THROTTLE in asked,
            Pedal.CLUTCH in asked,
        )


def pedals_of(played: Level) -> set[Pedal]:
    """Pedals that a repetition of a level waits for."""
    task = played.kind.task(played, played.targets.least, np.random.default_rng(1))
    return {move.pedal for move in task.moves}


def test_every_kind_of_drill_has_a_lesson_but_the_mixed_one() -> None:
    kinds = {lesson.partition(" ")[0] for lesson in MOVES}

    assert kinds == set(KINDS) - {"mixed"}


@pytest.mark.parametrize("name", MOVES)
def test_each_stage_and_each_sign_has_its_word(name: str) -> None:
    moves, words = MOVES[name], WORDS[name]

    assert len(words.stages) == len(moves.stages)
    assert len(words.signs) == len(moves.signs)
    assert moves.stages[0].begins == 0
    begins = [stage.begins for stage in moves.stages]
    assert begins == sorted(begins)
    for index, stage in enumerate(moves.stages):
        assert stage.pose is None or moves.stage_at(stage.pose) == index


@pytest.mark.parametrize("name", MOVES)
def test_no_pedal_jumps_neither_in_a_movement_nor_as_it_begins_again(name: str) -> None:
    pressed = course(name)

    for pedal in ("brake", "throttle", "clutch"):
        steps = np.abs(np.diff([getattr(one, pedal) or 0.0 for one in pressed]))
        assert steps.max() <= FASTEST


@pytest.mark.parametrize("name", ON_HELD_BRAKE)
def test_the_brake_stays_within_a_point_through_every_blip(name: str) -> None:
    assert np.abs(brakes(name) - HELD).max() < 1


@pytest.mark.parametrize("name", UNDER_THE_BRAKE)
def test_the_throttle_moves_only_while_the_brake_is_held_and_reaches_its_peak(name: str) -> None:
    pressed = course(name)

    assert min(one.brake for one in pressed if one.throttle > 0) > 10
    assert max(one.throttle for one in pressed) == pytest.approx(PEAK, abs=1)


@pytest.mark.parametrize("name", ["hold", "squeeze", EASING])
def test_the_throttle_rests_where_no_blip_is_asked(name: str) -> None:
    assert {one.throttle for one in course(name)} == {0.0}


@pytest.mark.parametrize("name", UNDER_THE_BRAKE)
def test_each_blip_answers_what_calls_it_and_is_over_before_the_next(name: str) -> None:
    moves = MOVES[name]
    calls = [
        at
        for at, word in zip(moves.signs, WORDS[name].signs, strict=True)
        if word in ("cue", "click")
    ]

    for begins in moves.blips:
        assert any(0 <= begins - call <= 1 for call in calls)
    assert all(later - before > BLIP for before, later in pairwise(moves.blips))


def test_a_run_begins_with_the_knocks_that_are_counted_in_and_has_several_even_blips() -> None:
    moves, signs = MOVES["run"], WORDS["run"].signs

    assert signs.count("knock") == COUNTED
    assert signs[COUNTED:] == ("click",) * len(moves.blips)
    assert moves.blips == moves.signs[COUNTED:]
    assert np.diff(moves.signs) == pytest.approx(moves.signs[1] - moves.signs[0])


@pytest.mark.parametrize("name", [EASING, EASING_BLIPS])
def test_the_brake_comes_down_evenly_through_a_blip_too(name: str) -> None:
    tone = MOVES[name].signs[WORDS[name].signs.index("tone")]
    down = [MOVES[name].at(tone + share).brake for share in np.arange(0.0, 2.8, 0.1)]

    assert down[0] == HELD
    assert np.diff(down) == pytest.approx(-HELD / 28)


def test_a_zone_counts_in_is_on_at_once_and_comes_down_with_the_tone_to_the_last_knock() -> None:
    moves, signs = MOVES[ZONE], WORDS[ZONE].signs
    *knocks, turn_in = [at for at, word in zip(moves.signs, signs, strict=True) if word == "knock"]
    tone = moves.signs[signs.index("tone")]

    down = [moves.at(at).brake for at in np.arange(2.7, turn_in, 0.1)]

    assert len(knocks) == COUNTED_OF_ZONE
    assert np.diff([*knocks, tone]) == pytest.approx(knocks[1] - knocks[0])
    assert moves.at(tone).brake < 5
    assert moves.at(tone + 0.4).brake == HELD == down[0]
    assert max(np.diff(down)) < 0
    assert moves.at(turn_in).brake < 5
    assert moves.blips == tuple(
        at for at, word in zip(moves.signs, signs, strict=True) if word == "click"
    )


def test_a_squeeze_goes_from_rest_to_the_target_at_once_and_not_past_it() -> None:
    brake, [cue] = brakes("squeeze"), MOVES["squeeze"].signs

    assert MOVES["squeeze"].at(cue).brake < 5
    assert MOVES["squeeze"].at(cue + 0.4).brake == HELD
    assert brake.max() == HELD


def test_the_brake_of_a_hold_stays_from_dark_to_light() -> None:
    dark, light = MOVES["hold"].signs

    held = {MOVES["hold"].at(time).brake for time in np.arange(dark, light, 0.1)}

    assert len(held) == 1


def test_the_blip_under_the_clutch_comes_while_it_is_down() -> None:
    pressed = course("clutch")

    assert {one.clutch for one in pressed if one.throttle > 0} == {FULL}
    assert min(one.clutch or 0.0 for one in pressed) == 0


@pytest.mark.parametrize("name", sorted(set(MOVES) - {"clutch"}))
def test_only_the_lesson_of_the_clutch_draws_one(name: str) -> None:
    assert {one.clutch for one in course(name)} == {None}


def test_each_term_is_explained_in_the_first_lesson_that_needs_it_and_only_there() -> None:
    seen: list[str] = []
    explained = {}

    for name in ("hold", "squeeze", "blip", "run", EASING, EASING_BLIPS, "clutch", ZONE):
        explained[name] = terms_of(name, seen)
        seen.append(name)

    assert {name: terms for name, terms in explained.items() if terms} == {
        "hold": (Term.DARK,),
        "squeeze": (Term.CUE,),
        "blip": (Term.BLIP,),
    }
    assert terms_of("clutch", ()) == (Term.DARK, Term.CUE, Term.BLIP)
    assert set(EXPLAINED) == set(Term)


def test_the_blip_that_is_explained_is_one_that_every_level_counts() -> None:
    explained = EXPLAINED[Term.BLIP]
    asking = [one for one in LEVELS if isinstance(one.kind, BlippingKind)]

    assert explained == f"A short press: about {PEAK:.0f} % throttle, a third of a second."
    assert asking
    for one in asking:
        least, most = peaks_asked(one)
        assert least < PEAK < most
        assert one.own["blip.longest"] > 1 / 3


@pytest.mark.parametrize("name", MOVES)
def test_the_line_of_a_lesson_is_about_the_pedals_and_not_about_the_foot(name: str) -> None:
    line = WORDS[name].effect.lower()

    assert any(word in line for word in ("brake", "target"))
    assert not any(word in line for word in ("ankle", "heel", "toe", "roll", "edge", "ball"))


@pytest.mark.parametrize("way", Way)
def test_the_word_of_the_moment_is_that_of_the_players_way(way: Way) -> None:
    assert WORDS["blip"].stage(1, way) == f"{OVER[way]}: the brake stays"


def test_a_level_that_eases_off_without_blips_has_a_lesson_without_them() -> None:
    names = {lesson_name(one) for one in LEVELS if one.kind.name == EASING}

    assert names == {EASING, EASING_BLIPS}


def test_a_kind_of_drill_without_a_movement_has_no_lesson() -> None:
    mixed = next(one for one in LEVELS if one.kind.name == "mixed")

    assert (lesson_name(mixed), lesson_name(level())) == (None, level().kind.name)


@pytest.mark.parametrize("way", Way)
@pytest.mark.parametrize("name", MOVES)
def test_the_foot_of_a_lesson_comes_to_a_pedal_without_a_jump(name: str, way: Way) -> None:
    poses = [pose_of(pressed, way) for pressed in course(name)]
    edges = [pose.place((REACH[way], 0.0))[1] for pose in poses]

    assert np.abs(np.diff(edges)).max() < FARTHEST
