"""What five minutes hold: what comes first, what is mixed in, what comes last, and when it ends."""

from dataclasses import replace
from datetime import UTC, datetime, timedelta
from time import perf_counter
from typing import Any

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from drills.level import Aid, Feedback
from drills.trace import Pedal
from engine.levels import SHIPPED, load_levels
from engine.practice.keeping import Keeping
from engine.practice.known import Known
from engine.practice.pace import USUAL, pace_of
from engine.practice.planner import (
    BAND_BLIPS,
    DARK,
    DUE_SHARE,
    MIXED_EVERY,
    Planned,
    following,
    plan,
)
from engine.practice.progress import ALL_PEDALS, is_open
from engine.practice.results import Result, Sitting, What, Why

LEVELS = load_levels([SHIPPED])
BY_ID = {one.id: one for one in LEVELS}
BAND = replace(BY_ID["blip-3-good"], id="the-band")
NOW = datetime(2024, 5, 17, 18, tzinfo=UTC)
TODAY, LATER = NOW.date(), NOW.date() + timedelta(days=5)
TWO = ALL_PEDALS - {Pedal.CLUTCH}
EVERYTHING = frozenset(BY_ID)
MIDWAY = frozenset(one.id for one in LEVELS[:14])


def known(done: frozenset[str] = frozenset(), due: tuple[str, ...] = (), **changes: Any) -> Known:
    """A player who passed some levels, of which some are due today."""
    keeping = {one: Keeping(due=TODAY if one in due else LATER) for one in done}
    return replace(Known(TODAY, LEVELS, done, keeping, band=BAND), **changes)


def sitting(minutes: float = 5.0, seed: int = 1, results: tuple[Result, ...] = ()) -> Sitting:
    """One that was begun."""
    return Sitting(1, What.FIVE, NOW, minutes, seed, results)


def played(planned: Planned, took: float, clean: bool = True, void: bool = False) -> Result:
    """What became of a repetition that was planned."""
    level = planned.level
    return Result(
        level.id,
        TODAY,
        None if void else 50.0,
        clean and not void,
        void,
        level.rule,
        kind=level.kind.name,
        why=planned.why,
        took=took,
    )


def play(
    player: Known,
    begun: Sitting,
    share: float = 1.0,
    seed: int = 1,
    uneven: float = 0.0,
    void: float = 0.0,
    most: int = 1000,
) -> tuple[Known, Sitting]:
    """A sitting played to its end by somebody who is clean in a share of all repetitions."""
    rng = np.random.default_rng(seed)
    while (planned := following(player, begun)) is not None and len(begun.results) < most:
        took = player.pace.of(planned.level) * float(np.exp(rng.normal(0, uneven)))
        is_void, clean = bool(rng.random() < void), bool(rng.random() < share)
        result = played(planned, took * (0.5 if is_void else 1.0), clean, is_void)
        player = player.after(result)
        begun = replace(begun, results=(*begun.results, result))
    return player, begun


def whys(planned: list[Planned]) -> list[Why]:
    """The reasons in order, each once for as long as it lasts."""
    found = [one.why for one in planned]
    return [one for k, one in enumerate(found) if k == 0 or found[k - 1] is not one]


def ids(planned: list[Planned], why: Why) -> list[str]:
    """The levels that come for a reason."""
    return [one.level.id for one in planned if one.why is why]


def test_what_is_due_comes_first_then_the_band_then_what_is_learned_and_the_dark_last() -> None:
    found = whys(plan(known(MIDWAY, ("blip-1-first",)), sitting()))

    assert found[:3] == [Why.DUE, Why.BAND, Why.LEARN]
    assert set(found[3:-1]) == {Why.MIX, Why.LEARN}
    assert found[-1] is Why.DARK


def test_a_level_that_is_due_is_shown_until_it_is_decided_and_no_longer() -> None:
    player = known(MIDWAY, ("blip-1-first",))

    clean = ids(plan(player, sitting()), Why.DUE)
    _, missed = play(player, sitting(), share=0.0)

    assert clean == ["blip-1-first"] * 4
    assert [one.level for one in missed.results if one.why is Why.DUE] == ["blip-1-first"] * 3


def test_a_level_that_was_begun_to_be_shown_is_decided_though_its_share_of_the_time_is_spent() -> (
    None
):
    planned = plan(known(MIDWAY, ("blip-1-first",)), sitting(minutes=1.5))

    spent = known(MIDWAY).pace.of(BY_ID["blip-1-first"]) * 3
    assert spent > DUE_SHARE * 90
    assert ids(planned, Why.DUE) == ["blip-1-first"] * 4


def test_what_is_due_is_shown_cold_with_nothing_revealed() -> None:
    due = next(one for one in plan(known(MIDWAY, ("blip-0-roll",)), sitting()))

    assert due.shown.feedback is Feedback.NONE
    assert due.shown.aid is BY_ID["blip-0-roll"].aid
    assert not replace(due, level=BY_ID["quiet-guess"]).shown.guess


def test_what_has_been_due_longest_comes_first_and_of_those_the_hardest() -> None:
    player = known(MIDWAY, ("still-1-light", "still-2-firm", "blip-1-first"))
    keeping = {**player.keeping, "still-2a-squeeze": Keeping(due=TODAY - timedelta(days=2))}

    due = [one.id for one in replace(player, keeping=keeping).due]

    assert due == ["still-2a-squeeze", "blip-1-first", "still-2-firm", "still-1-light"]


def test_a_level_whose_showing_was_begun_today_is_finished_first() -> None:
    player = known(MIDWAY, ("still-1-light", "still-2-firm", "blip-1-first"))
    begun = player.after(played(Planned(BY_ID["still-1-light"], Why.DUE), 9.0))

    assert [one.id for one in begun.due] == ["still-1-light", "blip-1-first", "still-2-firm"]
    assert begun.is_being_shown(BY_ID["still-1-light"])


def test_what_was_not_shown_today_waits_behind_what_has_been_due_longer() -> None:
    player = known(MIDWAY, ("still-1-light", "still-2-firm"))
    for _ in range(5):
        player = player.after(played(Planned(BY_ID["still-2-firm"], Why.DUE), 9.0, clean=False))

    tomorrow = replace(player, day=TODAY + timedelta(days=1))

    assert [one.id for one in player.due] == ["still-1-light"]
    assert [one.id for one in tomorrow.due] == ["still-1-light", "still-2-firm"]


def test_what_is_due_takes_its_share_of_the_time_and_one_level_more_at_most() -> None:
    player = known(MIDWAY, tuple(MIDWAY))

    for seed in range(20):
        _, begun = play(player, sitting(), share=0.6, seed=seed)
        due = [one for one in begun.results if one.why is Why.DUE]
        longest = 10 * max(one.took or 0.0 for one in due)
        assert sum(one.took or 0.0 for one in due) <= DUE_SHARE * 300 + longest, f"seed {seed}"


def test_what_is_due_and_was_not_shown_yet_is_not_mixed_in() -> None:
    player = known(MIDWAY, tuple(MIDWAY - {"still-1-light", "blip-0-roll"}))

    found = plan(player, sitting())

    shown = set(ids(found, Why.DUE))
    assert set(ids(found, Why.MIX)) <= shown | {"still-1-light", "blip-0-roll"}


def test_the_band_has_its_blips_once_a_blip_is_passed() -> None:
    before = plan(known(frozenset({"still-1-light", "still-2-firm"})), sitting())
    since = plan(known(frozenset({"still-1-light", "blip-0-roll"})), sitting())

    assert ids(before, Why.BAND) == []
    assert ids(since, Why.BAND) == ["the-band"] * BAND_BLIPS


def test_a_void_blip_of_the_band_is_made_up_for() -> None:
    void = played(Planned(BAND, Why.BAND), 5.0, void=True)

    found = plan(known(MIDWAY), sitting(results=(void,)))

    assert len(ids(found, Why.BAND)) == BAND_BLIPS


def test_the_band_takes_no_more_than_its_share_of_a_short_sitting() -> None:
    found = plan(known(MIDWAY), sitting(minutes=2.0))

    assert len(ids(found, Why.BAND)) == 3


def test_every_fourth_of_what_is_learned_is_of_a_passed_level() -> None:
    found = [one for one in plan(known(MIDWAY), sitting()) if one.why in (Why.LEARN, Why.MIX)]

    mixed = [one.why is Why.MIX for one in found]

    assert mixed == [k % MIXED_EVERY == MIXED_EVERY - 1 for k in range(len(mixed))]
    assert set(ids(found, Why.MIX)) <= MIDWAY


def test_the_last_three_show_nothing() -> None:
    found = plan(known(MIDWAY), sitting())

    dark = [one for one in found if one.why is Why.DARK]

    assert found[-DARK:] == dark
    assert all(one.shown.aid is Aid.NONE for one in dark)
    assert all(one.shown.feedback is Feedback.NONE and not one.shown.guess for one in dark)


def test_in_the_dark_a_level_that_is_learned_comes_between_two_that_are_passed() -> None:
    first, second, third = ids(plan(known(MIDWAY), sitting()), Why.DARK)

    assert first in MIDWAY
    assert second not in MIDWAY
    assert third in MIDWAY


def test_a_long_level_is_neither_mixed_in_at_the_end_nor_asked_in_the_dark() -> None:
    done = MIDWAY - {"still-4-long"}
    recent = [played(Planned(BY_ID["still-4-long"], Why.LEARN), 29.0, clean=False)]

    found = plan(known(done, recent=recent), sitting())

    assert "still-4-long" in ids(found, Why.LEARN)
    assert "still-4-long" not in ids(found, Why.DARK)


def test_a_beginner_gets_the_first_level_and_nothing_else() -> None:
    found = plan(known(), sitting(minutes=2.0))

    assert {one.level.id for one in found[:8]} == {"still-1-light"}
    assert whys(found)[-1] is Why.DARK


def test_an_expert_works_on_the_last_level_and_is_mixed_the_hardest() -> None:
    found = plan(known(EVERYTHING), sitting())

    assert set(ids(found, Why.LEARN)) == {"mix-3-nothing"}
    assert set(ids(found, Why.MIX)) <= {one.id for one in LEVELS[-7:]}


def test_a_level_that_is_too_hard_makes_room_and_then_leads_down() -> None:
    done = frozenset({"still-1-light"})
    hard = [played(Planned(BY_ID[one], Why.LEARN), 9.0, False) for one in ["still-2-firm"] * 10]
    both = [*hard, *(played(Planned(BY_ID["blip-0-roll"], Why.LEARN), 9.0, False),) * 10]

    assert following(known(done, recent=hard), sitting()).level.id == "blip-0-roll"
    assert following(known(done, recent=both), sitting()).level.id == "still-1-light"


def test_a_level_passed_on_the_way_opens_the_next_at_once() -> None:
    found = plan(known(), sitting())

    learned = list(dict.fromkeys(ids(found, Why.LEARN)))

    assert learned[:2] == ["still-1-light", "still-2-firm"]
    assert ids(found, Why.LEARN)[:9].count("still-1-light") >= 8


@pytest.mark.parametrize("minutes", [1.0, 2.0, 5.0, 20.0])
@pytest.mark.parametrize("done", [frozenset(), MIDWAY, EVERYTHING], ids=["none", "midway", "all"])
def test_a_plan_of_any_length_fills_its_time(done: frozenset[str], minutes: float) -> None:
    player = known(done)

    found = plan(player, sitting(minutes))

    assert abs(sum(player.pace.of(one.level) for one in found) - 60 * minutes) <= 15
    assert sum(one.why is Why.DARK for one in found) in (DARK, DARK + 1)


@settings(max_examples=60, deadline=None)
@given(
    passed=st.integers(0, len(LEVELS)),
    minutes=st.sampled_from([1.0, 2.0, 5.0, 20.0]),
    due=st.integers(0, 6),
    share=st.floats(0, 1),
    seed=st.integers(0, 2**32 - 1),
)
def test_a_sitting_ends_within_fifteen_seconds_of_its_time(
    passed: int, minutes: float, due: int, share: float, seed: int
) -> None:
    done = [one.id for one in LEVELS[:passed]]
    player = known(frozenset(done), tuple(done[:due]))

    _, begun = play(player, sitting(minutes, seed), share, seed, uneven=0.1, void=0.05)

    assert abs(begun.left) <= 15
    assert sum(one.why is Why.DARK and not one.void for one in begun.results) >= DARK - 1


@settings(max_examples=40, deadline=None)
@given(
    done=st.frozensets(st.sampled_from(sorted(EVERYTHING))),
    pedals=st.sampled_from([ALL_PEDALS, TWO, frozenset({Pedal.BRAKE})]),
    seed=st.integers(0, 2**32 - 1),
)
def test_nothing_is_planned_that_is_closed_or_lacks_a_pedal(
    done: frozenset[str], pedals: frozenset[Pedal], seed: int
) -> None:
    band = BAND if pedals.issuperset(BAND.pedals) else None
    player = known(done, tuple(sorted(done)[::2]), pedals=pedals, band=band)

    begun = sitting(2.0, seed)
    while (planned := following(player, begun)) is not None:
        assert pedals.issuperset(planned.level.pedals)
        is_known = planned.level.id in player.done or planned.level == band
        assert is_known or is_open(planned.level, player.done, pedals)
        result = played(planned, USUAL)
        player, begun = player.after(result), replace(begun, results=(*begun.results, result))


def test_the_band_is_not_asked_without_its_pedals() -> None:
    found = plan(known(MIDWAY, pedals=frozenset({Pedal.BRAKE})), sitting())

    assert ids(found, Why.BAND) == []


@given(seed=st.integers(0, 2**32 - 1))
@settings(max_examples=10, deadline=None)
def test_the_same_seed_gives_the_same_plan(seed: int) -> None:
    player = known(MIDWAY, ("blip-1-first",))

    assert plan(player, sitting(seed=seed)) == plan(player, sitting(seed=seed))


def test_another_seed_mixes_others_in() -> None:
    mixed = {tuple(ids(plan(known(MIDWAY), sitting(seed=k)), Why.MIX)) for k in range(8)}

    assert len(mixed) > 4


@pytest.mark.parametrize("most", [1, 5, 9, 14, 20, 30])
def test_a_sitting_that_was_cut_off_goes_on_with_what_is_left(most: int) -> None:
    player = known(MIDWAY, ("blip-1-first",))
    whole = plan(player, sitting())

    later, begun = play(player, sitting(), most=most)

    assert plan(later, begun) == whole[most:]


def test_what_is_known_after_a_repetition_is_what_the_pass_rule_says() -> None:
    planned = Planned(BY_ID["still-1-light"], Why.LEARN)
    player = known()
    for clean in [True] * 7 + [False]:
        player = player.after(played(planned, 9.0, clean))

    assert player.done == frozenset()
    assert player.after(played(planned, 9.0, void=True)).done == frozenset()
    assert player.after(played(planned, 9.0)).done == {"still-1-light"}
    assert player.after(played(planned, 9.0)).keeping["still-1-light"] == Keeping.passed(TODAY)


def test_a_level_that_was_kept_today_is_not_due_any_more() -> None:
    player, _ = play(known(MIDWAY, ("blip-1-first",)), sitting())

    assert player.due == []
    assert player.keeping["blip-1-first"].is_kept


def test_a_player_who_takes_longer_gets_fewer() -> None:
    recent = [played(Planned(one, Why.LEARN), 18.0) for one in LEVELS]

    slow = plan(known(MIDWAY, pace=pace_of(recent)), sitting())

    assert 14 <= len(slow) <= 18
    assert len(plan(known(MIDWAY), sitting())) > 25


def test_a_plan_is_there_before_anybody_waits_for_it() -> None:
    recent = [played(Planned(LEVELS[k % 20], Why.LEARN), 9.0, k % 3 > 0) for k in range(300)]
    player = known(MIDWAY, tuple(MIDWAY), recent=recent)

    spent = []
    for _ in range(3):
        began = perf_counter()
        plan(player, sitting())
        spent.append(perf_counter() - began)

    assert min(spent) < 0.1
