"""What five minutes hold: what comes first, what is mixed in, and what comes last."""

from dataclasses import replace
from datetime import timedelta

import pytest

from drills.level import Aid, Feedback
from engine.five.check_time import DUE_SHARE
from engine.five.planner import (
    BAND_BLIPS,
    DARK,
    MIXED_EVERY,
    MIXED_FROM,
    REVIEWS,
    Planned,
    following,
    plan,
)
from engine.practice.results import Purpose
from engine.practice.retention import Retention
from tests.engine.five.planning import (
    BAND,
    BY_ID,
    EVERYTHING,
    LATER,
    LEVELS,
    MIDWAY,
    TODAY,
    a_player,
    ids,
    play,
    played,
    session,
    whys,
)


def test_the_parts_come_in_the_order_checks_steadiness_learning_nothing_shown() -> None:
    found = whys(plan(a_player(MIDWAY, ("blip-1-first",)), session()))

    assert found[:3] == [Purpose.DUE, Purpose.BAND, Purpose.LEARN]
    assert set(found[3:-1]) == {Purpose.MIX, Purpose.LEARN}
    assert found[-1] is Purpose.DARK


def test_a_check_ends_as_soon_as_it_is_decided() -> None:
    player = a_player(MIDWAY, ("blip-1-first",))

    clean = ids(plan(player, session()), Purpose.DUE)
    _, missed = play(player, session(), share=0.0)

    assert clean == ["blip-1-first"] * 4
    assert [one.level for one in missed.results if one.why is Purpose.DUE] == ["blip-1-first"] * 3


def test_a_check_under_way_is_decided_though_its_share_of_the_time_is_spent() -> None:
    planned = plan(a_player(MIDWAY, ("blip-1-first",)), session(minutes=1.5))

    spent = a_player(MIDWAY).pace.of(BY_ID["blip-1-first"]) * 3
    assert spent > DUE_SHARE * 90
    assert ids(planned, Purpose.DUE) == ["blip-1-first"] * 4


def test_a_check_is_played_without_feedback() -> None:
    due = next(one for one in plan(a_player(MIDWAY, ("blip-0-roll",)), session()))

    assert due.as_played.feedback is Feedback.NONE
    assert due.as_played.aid is BY_ID["blip-0-roll"].aid
    assert not replace(due, level=BY_ID["quiet-guess"]).as_played.guess


def test_the_level_due_longest_is_checked_first_and_of_several_the_hardest() -> None:
    player = a_player(MIDWAY, ("still-1-light", "still-2-firm", "blip-1-first"))
    retention = {**player.retention, "still-2a-squeeze": Retention(due=TODAY - timedelta(days=2))}

    due = [one.id for one in replace(player, retention=retention).due]

    assert due == ["still-2a-squeeze", "blip-1-first", "still-2-firm", "still-1-light"]


def test_a_check_begun_today_is_finished_first() -> None:
    player = a_player(MIDWAY, ("still-1-light", "still-2-firm", "blip-1-first"))
    begun = player.after(played(Planned(BY_ID["still-1-light"], Purpose.DUE), 9.0))

    assert [one.id for one in begun.due] == ["still-1-light", "blip-1-first", "still-2-firm"]
    assert begun.is_under_check(BY_ID["still-1-light"])


def test_a_missed_check_waits_behind_levels_due_for_longer() -> None:
    player = a_player(MIDWAY, ("still-1-light", "still-2-firm"))
    for _ in range(5):
        player = player.after(played(Planned(BY_ID["still-2-firm"], Purpose.DUE), 9.0, clean=False))

    tomorrow = replace(player, day=TODAY + timedelta(days=1))

    assert [one.id for one in player.due] == ["still-1-light"]
    assert [one.id for one in tomorrow.due] == ["still-1-light", "still-2-firm"]


def test_checks_take_their_share_of_the_time_and_one_level_more_at_most() -> None:
    player = a_player(MIDWAY, tuple(MIDWAY))

    for seed in range(20):
        _, begun = play(player, session(), share=0.6, seed=seed)
        due = [one for one in begun.results if one.why is Purpose.DUE]
        longest = 10 * max(one.took or 0.0 for one in due)
        assert sum(one.took or 0.0 for one in due) <= DUE_SHARE * 300 + longest, f"seed {seed}"


def test_a_level_due_for_a_check_is_not_reviewed_before_it() -> None:
    player = a_player(MIDWAY, tuple(MIDWAY - {"still-1-light", "blip-0-roll"}))

    found = plan(player, session())

    shown = set(ids(found, Purpose.DUE))
    assert set(ids(found, Purpose.MIX)) <= shown | {"still-1-light", "blip-0-roll"}


def test_steadiness_blips_come_once_a_blip_level_is_passed() -> None:
    before = plan(a_player(frozenset({"still-1-light", "still-2-firm"})), session())
    since = plan(a_player(frozenset({"still-1-light", "blip-0-roll"})), session())

    assert ids(before, Purpose.BAND) == []
    assert ids(since, Purpose.BAND) == ["the-band"] * BAND_BLIPS


def test_a_void_steadiness_blip_is_repeated() -> None:
    void = played(Planned(BAND, Purpose.BAND), 5.0, void=True)

    found = plan(a_player(MIDWAY), session(results=(void,)))

    assert len(ids(found, Purpose.BAND)) == BAND_BLIPS


def test_steadiness_takes_no_more_than_its_share_of_a_short_session() -> None:
    found = plan(a_player(MIDWAY), session(minutes=2.0))

    assert len(ids(found, Purpose.BAND)) == 3


def test_every_fourth_repetition_of_learning_reviews_a_passed_level() -> None:
    found = [
        one for one in plan(a_player(MIDWAY), session()) if one.why in (Purpose.LEARN, Purpose.MIX)
    ]

    mixed = [one.why is Purpose.MIX for one in found]

    assert mixed == [k % MIXED_EVERY == MIXED_EVERY - 1 for k in range(len(mixed))]
    assert set(ids(found, Purpose.MIX)) <= MIDWAY


def test_the_last_three_show_nothing() -> None:
    found = plan(a_player(MIDWAY), session())

    dark = [one for one in found if one.why is Purpose.DARK]

    assert found[-DARK:] == dark
    assert all(one.as_played.aid is Aid.NONE for one in dark)
    assert all(one.as_played.feedback is Feedback.NONE and not one.as_played.guess for one in dark)


def test_of_the_last_three_the_second_is_of_the_level_being_learned() -> None:
    first, second, third = ids(plan(a_player(MIDWAY), session()), Purpose.DARK)

    assert first in MIDWAY
    assert second not in MIDWAY
    assert third in MIDWAY


def test_a_long_level_is_not_among_the_last_three() -> None:
    done = MIDWAY - {"still-4-long"}
    recent = [played(Planned(BY_ID["still-4-long"], Purpose.LEARN), 29.0, clean=False)]

    found = plan(a_player(done, recent=recent), session())

    assert "still-4-long" in ids(found, Purpose.LEARN)
    assert "still-4-long" not in ids(found, Purpose.DARK)


def test_a_beginner_gets_the_first_level_and_nothing_else() -> None:
    found = plan(a_player(), session(minutes=2.0))

    assert {one.level.id for one in found[:8]} == {"still-1-light"}
    assert whys(found)[-1] is Purpose.DARK


@pytest.mark.parametrize("seed", range(30))
def test_an_expert_reviews_the_hardest_levels_and_none_of_them_twice(seed: int) -> None:
    retained = {name: Retention(due=LATER, outlasted=1) for name in EVERYTHING}

    found = plan(a_player(EVERYTHING, retention=retained), session(seed=seed))

    # At the end there is no time for a level that may draw a long one: the hardest others come.
    assert {Purpose.MIX, Purpose.DARK} <= set(whys(found))
    for place, one in enumerate(found):
        if one.why in REVIEWS:
            before = found[:place]
            seen = {earlier.level.id for earlier in before if earlier.why in REVIEWS}
            seen |= {before[-1].level.id}
            fresh = [level for level in LEVELS if level.id not in seen]
            short = [level for level in fresh if level.kind.measures]
            fitting = (*fresh[-MIXED_FROM:], *short[-MIXED_FROM:])
            assert one.level in (short[-MIXED_FROM:] if one.why is Purpose.DARK else fitting)


@pytest.mark.parametrize("seed", range(5))
def test_who_has_reviewed_every_passed_level_reviews_one_again(seed: int) -> None:
    found = plan(a_player(frozenset({"still-1-light", "blip-0-roll"})), session(seed=seed))

    reviewed = ids(found, Purpose.MIX)
    assert set(reviewed) == {"still-1-light", "blip-0-roll"}
    assert len(reviewed) > 2


def test_a_level_that_is_too_hard_makes_room_and_then_leads_down() -> None:
    done = frozenset({"still-1-light"})
    hard = [played(Planned(BY_ID[one], Purpose.LEARN), 9.0, False) for one in ["still-2-firm"] * 10]
    both = [*hard, *(played(Planned(BY_ID["blip-0-roll"], Purpose.LEARN), 9.0, False),) * 10]

    first, second = (following(a_player(done, recent=some), session()) for some in (hard, both))

    assert first is not None
    assert first.level.id == "blip-0-roll"
    assert second is not None
    assert second.level.id == "still-1-light"


def test_a_level_passed_on_the_way_opens_the_next_at_once() -> None:
    found = plan(a_player(), session())

    learned = list(dict.fromkeys(ids(found, Purpose.LEARN)))

    assert learned[:2] == ["still-1-light", "still-2-firm"]
    assert ids(found, Purpose.LEARN)[:9].count("still-1-light") >= 8
