"""The picture of a day: only what is true is said of it."""

from dataclasses import replace
from datetime import date, timedelta

import pytest

from drills.fault import Fault
from drills.trace import Pedal
from engine.drill.turn import Pictures
from engine.five.day import BestScore, NewLimit
from engine.five.day_summary import MOST_BESTS, day_of
from engine.five.day_words import Line
from engine.five.plan_words import plan_words
from engine.five.planner import plan, seed_of
from engine.five.player_state import PlayerState
from engine.five.session import SessionLog
from engine.kit.repetition_marks import Mark
from engine.practice.diagnosis import FaultShare
from engine.practice.focus import Focus
from engine.practice.passes import ALL_PEDALS
from engine.practice.personal_limit import PersonalLimit
from engine.practice.results import AWAY, Purpose, Session, SessionKind, Streaks
from engine.practice.retention import Retention
from tests.engine.five.summed_days import KEPT, MISSED, STOOD, TODAY, TOMORROW, a_day, one
from tests.engine.five.unattended import DATE, FIRST, HOLDS, SECOND_ONE, THIRD


def test_the_parts_hold_each_repetition_in_the_order_they_come() -> None:
    day = a_day(
        [
            one(why=Purpose.DUE),
            one("steadiness-band", Purpose.BAND, clean=False),
            one("second", Purpose.LEARN, None),
            one("second", Purpose.LEARN),
            one("first", Purpose.MIX, 20.0, clean=False),
            one("second", Purpose.DARK),
        ]
    )

    assert [(part.label, part.marks) for part in day.parts] == [
        ("check-up", (Mark.CLEAN,)),
        ("steadiness", (Mark.MISSED,)),
        ("new: Second", (Mark.VOID, Mark.CLEAN)),
        ("revision", (Mark.MISSED,)),
        ("nothing shown", (Mark.CLEAN,)),
    ]
    assert [part.name for part in day.parts if part.is_staircase] == ["steadiness"]
    assert (day.clean, day.counted, day.seconds) == (3, 5, 30.0)


def test_learning_two_levels_names_neither_and_a_deleted_level_shows_its_id() -> None:
    two = a_day([one("first"), one("second")])
    gone = a_day([one("gone")])

    assert [part.label for part in two.parts] == ["new"]
    assert [part.label for part in gone.parts] == ["new: gone"]


def test_a_level_is_retained_where_its_check_succeeded_on_the_day() -> None:
    results = [one("first", Purpose.DUE), one("second", Purpose.DUE), one("third", Purpose.MIX)]

    day = a_day(results, {"first": KEPT, "second": MISSED, "third": KEPT})
    earlier = a_day(results, {"first": replace(KEPT, day=TODAY - timedelta(days=1))})

    assert day.retained == ("First",)
    assert earlier.retained == ()


def test_levels_retained_and_passed_before_midnight_are_named_after_it() -> None:
    results = [
        one("first", Purpose.DUE),
        one("second"),
        one("second", day=TOMORROW),
    ]
    retention = {"first": KEPT, "second": Retention.passed(TODAY)}

    day = a_day(results, retention, player=PlayerState(TOMORROW, HOLDS), passed=["second"])

    assert (day.retained, day.passed) == (("First",), ("Second",))


def test_the_levels_passed_are_those_that_the_session_was_the_first_to_pass() -> None:
    day = a_day([one("first"), one("second"), one("third")], passed=["third", "second"])

    assert day.passed == ("Second", "Third")


@pytest.mark.parametrize(
    ("best", "score", "said"),
    [
        (60.0, 71.9, ("Best score yet: 71 at First.",)),
        (71.2, 71.9, ()),
        (80.0, 71.9, ()),
        (0.0, 71.9, ()),
        (0.6, 71.9, ()),
    ],
)
def test_a_best_score_is_named_where_it_beats_an_earlier_one_visibly(
    best: float, score: float, said: tuple[str, ...]
) -> None:
    day = a_day([one(score=score)], bests={"first": best})

    assert day.beaten == said
    assert day.best == (BestScore(71, "first", "First") if said else None)


def test_of_many_best_scores_those_of_the_hardest_levels_are_named() -> None:
    day = a_day(
        [one(level.id) for level in (THIRD, FIRST, SECOND_ONE)],
        bests={"first": 50.0, "second": 50.0, "third": 50.0},
    )

    assert len(day.beaten) == MOST_BESTS
    assert day.beaten == (
        "Best score yet: 80 at Third.",
        "Best score yet: 80 at Second.",
    )


@pytest.mark.parametrize(
    ("clean", "days", "said", "longest"),
    [
        (7, 3, (), False),
        (8, 3, ("8 clean in a row, your best yet.",), False),
        (7, 4, (), True),
    ],
)
def test_streaks_are_beaten_where_they_are_longer_than_ever(
    clean: int, days: int, said: tuple[str, ...], longest: bool
) -> None:
    stands = replace(STOOD, best_clean_streak=clean, best_days_streak=days)

    day = a_day([one()], stands=stands)

    assert (day.beaten, day.is_longest) == (said, longest)
    assert day.row == (clean if said else 0)


def test_first_streaks_beat_nothing() -> None:
    session = Session(1, SessionKind.FIVE, DATE, 5.0, 1, (one(),))
    ran = SessionLog(session, PlayerState(TODAY, HOLDS), Pictures(), False, {})
    nothing = Streaks(today=0, clean_today=0, clean_streak=0, days_streak=0)
    something = replace(nothing, best_clean_streak=5, best_days_streak=1)

    first = day_of(ran, nothing, something, None)
    second = day_of(ran, something, replace(something, best_days_streak=2), None)

    assert [(day.beaten, day.is_longest) for day in (first, second)] == [((), False)] * 2


@pytest.mark.parametrize(
    ("player_day", "over", "says"),
    [
        (TODAY, True, "Go on tomorrow"),
        (TODAY, False, "The rest waits here"),
        (TOMORROW, True, "Past midnight"),
        (TOMORROW, False, "Past midnight"),
    ],
)
def test_the_next_visit_is_the_one_that_home_offers(
    player_day: date, over: bool, says: str
) -> None:
    day = a_day([one()], player=PlayerState(player_day, HOLDS), over=over)

    assert day.next_visit.words == says


def test_what_is_due_tomorrow_is_there_and_has_its_pedals() -> None:
    clutched = replace(THIRD, pedals=(Pedal.BRAKE, Pedal.CLUTCH))
    levels = (FIRST, SECOND_ONE, clutched)
    retention = {
        "first": Retention.passed(TODAY),
        "second": KEPT,
        "third": Retention.passed(TODAY),
        "gone": Retention.passed(TODAY),
    }
    feet = frozenset({Pedal.BRAKE, Pedal.THROTTLE})

    without = a_day([one()], retention, player=PlayerState(TODAY, levels, pedals=feet))
    whole = a_day([one()], retention, player=PlayerState(TODAY, levels, pedals=ALL_PEDALS))

    assert (without.due_tomorrow, whole.due_tomorrow) == (1, 2)
    assert without.next_visit.note == "1 check-up"


def test_tomorrow_has_no_more_checks_than_there_is_time_for() -> None:
    levels = [replace(FIRST, id=f"level-{number}") for number in range(20)]
    player = PlayerState(TODAY, levels, frozenset(one.id for one in levels))
    retention = {one.id: Retention.passed(TODAY) for one in levels}

    day = a_day([one()], retention, player=player)

    tomorrow = replace(player, day=TOMORROW, retention=retention)
    planned = plan(tomorrow, Session(0, SessionKind.FIVE, DATE, 5.0, seed_of(TOMORROW)))
    assert 0 < day.due_tomorrow < 5
    assert day.all_due == 20
    assert plan_words(planned, 20).startswith(f"{day.due_tomorrow} of 20 check-ups")
    assert day.next_visit == Line("Tomorrow", f"{day.due_tomorrow} of 20 check-ups")


def test_time_away_from_the_pedals_is_not_practice() -> None:
    assert a_day([one(took=5.0), one(took=3600.0)]).seconds == 5.0 + AWAY


@pytest.mark.parametrize("over", [True, False])
def test_a_day_is_early_where_its_session_is_not_over(over: bool) -> None:
    assert a_day([one()], over=over).is_early is not over


def test_a_new_best_of_a_personal_limit_is_news_where_it_was_told_in_the_session() -> None:
    limit = PersonalLimit((0.58,) * 36, 0.6, told=TODAY)
    player = PlayerState(TODAY, HOLDS, personal={"first": limit, "second": limit})
    results, kept = [one("first", Purpose.OWN)], {"first": KEPT, "second": KEPT}

    day = a_day(results, kept, player=player)
    earlier = a_day(
        results, kept, player=replace(player, personal={"first": replace(limit, told=None)})
    )
    passed = a_day(results, {"first": replace(KEPT, outlasted=0)}, player=player)

    assert day.new_limit == NewLimit(0.6, "First")
    assert "New best: 0.60 of the limit at First." in day.beaten
    assert earlier.new_limit is passed.new_limit is None


def test_each_part_is_named_by_what_it_was_for() -> None:
    share = FaultShare(Fault.EARLY_ROLL, 22, 40)
    day = a_day(
        [
            *[one(why=Purpose.DUE), one("second", why=Purpose.DUE)] * 2,
            *[one("second", Purpose.FAULT)] * 5,
            *[one("third", Purpose.OWN)] * 3,
            one("third", Purpose.OWN, None),
            one("third", Purpose.MIX),
        ],
        focus=Focus(share, share, TODAY),
    )

    assert [part.label for part in day.parts] == [
        "check-ups",
        "for the early roll",
        "personal limit: Third",
        "revision",
    ]
    assert day.aims == "5 for the early roll, 4 for check-ups, 3 for a personal limit."


def test_an_easier_level_is_not_called_new_at_the_end_but_one_just_passed_is() -> None:
    levels = (FIRST, replace(SECOND_ONE, needs=("first",)))
    player = PlayerState(TODAY, levels, frozenset({"first"}))

    easier = a_day([one("first")] * 2, player=player)
    passed = a_day([one("first")] * 2, player=player, passed=["first"])

    assert (easier.parts[0].label, easier.aims) == ("easier first: First", "2 on an easier level.")
    assert (passed.parts[0].label, passed.aims) == ("new: First", "2 new.")


@pytest.mark.parametrize(("rested", "still"), [(13, []), (14, ["1 of 2 still there."])])
def test_after_a_long_rest_the_levels_still_there_are_told_of_those_decided(
    rested: int, still: list[str]
) -> None:
    before = replace(one(), day=TODAY - timedelta(days=rested + 1))
    results = [one(name, Purpose.DUE) for name in ("first", "second", "third")]
    undecided = Retention(TODAY, 1, False, TODAY, (True, False))
    player = PlayerState(TODAY, HOLDS, recent=[before, *results])

    day = a_day(results, {"first": KEPT, "second": MISSED, "third": undecided}, player=player)

    assert day.still_there == still
    assert day.sentences[1:] == still


def test_the_last_line_says_what_tomorrow_is_for() -> None:
    player = PlayerState(TODAY, HOLDS)

    day = a_day([one()], {"first": Retention.passed(TODAY)}, player=player)
    early = a_day([one()], {"first": Retention.passed(TODAY)}, player=player, over=False)

    assert day.rest == [
        "Rest now. Tomorrow: 1 check-up, then First.",
        "Rest now. Tomorrow: 1 check-up.",
    ]
    assert early.rest == ["The rest waits here all day."]
