"""When lessons come up: once before the first repetition of each kind, and from the pause."""

from dataclasses import replace

import pytest

from engine.drill.attempt import Setting
from engine.drill.lesson import Lesson
from engine.drill.lesson_flow import change_way, teach
from engine.drill.lesson_moves import EASING_BLIPS, MOVES
from engine.drill.lesson_saved import SEEN_KEY, WAY_KEY, Lessons, saved_way
from engine.drill.lesson_words import SHOW_MOVEMENT, WAYS, Term
from engine.drill.set import run_set
from engine.kit.foot_pose import Way
from engine.ladder.placing_flow import find_place
from engine.stage.actions import Action
from engine.stage.scene import Attended, Pace
from engine.store import History
from engine.store.repetitions import add_repetition
from tests.engine.five.learning_foot import BY_ID, LEVELS, Learning
from tests.engine.walking import Step, back
from tests.made import record

HOLD, BLIP = BY_ID["still-1-light"], BY_ID["blip-1-first"]
ROLL, HEEL = WAYS[Way.ROLL], WAYS[Way.HEEL]


class Taught(Learning):
    """A simulated foot whose player is shown lessons."""

    def __init__(self, history: History, lessons: Lessons | None = None) -> None:
        super().__init__(history, 0.9)
        self.setting = replace(self.setting, lessons=lessons or Lessons(history))

    def play(self, name: str, *steps: tuple[str, Step], repetitions: int = 1) -> list[str]:
        """Play a set of a level; returns the names of the screens of it."""
        self.seen.clear()
        self.walk(run_set(BY_ID[name], self.setting, repetitions), *steps)
        return list(self.seen)


@pytest.fixture
def taught(history: History) -> Taught:
    """A new player who is shown lessons."""
    return Taught(history)


def terms_shown(terms: list[object]) -> Step:
    """Step that notes the terms that a lesson explains, and ends it."""

    def step(screen: Attended) -> None:
        assert isinstance(screen, Lesson)
        terms.append(screen.details()["terms"])
        screen.on_action(Action.GO)

    return step


def test_the_first_repetition_of_a_kind_comes_after_its_lesson_and_no_other_does(
    taught: Taught,
) -> None:
    first = taught.play(HOLD.id, repetitions=2)
    again = taught.play("still-2-firm")

    assert first == ["lesson", "repetition", "reveal", "repetition", "reveal"]
    assert again == ["repetition", "reveal"]


def test_the_terms_are_explained_once_each(taught: Taught) -> None:
    terms: list[object] = []

    for name in ("still-1-light", "still-2a-squeeze", "blip-0-roll", "run-1-two"):
        way: list[tuple[str, Step]] = [("way", ROLL)] if name == "blip-0-roll" else []
        taught.play(name, *way, ("lesson", terms_shown(terms)))

    assert terms == [[Term.DARK.value], [Term.CUE.value], [Term.BLIP.value], []]


def test_the_way_is_asked_for_once_before_the_first_lesson_with_a_throttle(
    taught: Taught, history: History
) -> None:
    hold = taught.play(HOLD.id)
    blip = taught.play(BLIP.id, ("way", HEEL))
    run = taught.play("run-1-two")

    assert "way" not in hold
    assert blip[:3] == ["way", "lesson", "repetition"]
    assert run[:2] == ["lesson", "repetition"]
    assert saved_way(history) is Way.HEEL


def test_leaving_the_question_goes_on_with_the_roll_and_asks_no_more(
    taught: Taught, history: History
) -> None:
    taught.play(BLIP.id, ("way", back))

    assert saved_way(history) is Way.ROLL
    assert "way" not in taught.play("clutch-1-order")


def test_the_setting_has_the_way_that_was_chosen_just_now(taught: Taught) -> None:
    setting: Setting = taught.walk(teach(BLIP, taught.setting), ("way", HEEL))

    assert (taught.setting.way, setting.way) == (Way.ROLL, Way.HEEL)


def test_the_way_is_changed_by_its_menu(taught: Taught, history: History) -> None:
    taught.walk(change_way(taught.setting), ("way", HEEL))
    changed = saved_way(history)
    taught.walk(change_way(taught.setting), ("way", back))

    assert (changed, saved_way(history)) == (Way.HEEL, Way.HEEL)


def test_the_pause_menu_shows_the_movement_again_and_comes_back(taught: Taught) -> None:
    terms: list[object] = []

    seen = taught.play(
        HOLD.id,
        ("lesson", "on"),
        ("reveal", "menu"),
        ("menu", SHOW_MOVEMENT),
        ("lesson", terms_shown(terms)),
        ("menu", "Go on"),
        ("reveal", "on"),
        repetitions=2,
    )

    assert seen[2:7] == ["reveal", "menu", "lesson", "menu", "repetition"]
    assert terms == [[Term.DARK.value]]


def test_the_pause_menu_shows_the_movement_where_no_lesson_comes_unasked(history: History) -> None:
    learning = Learning(history, 0.9)

    learning.walk(
        run_set(BLIP, learning.setting, 2),
        ("reveal", "menu"),
        ("menu", SHOW_MOVEMENT),
        ("lesson", "on"),
        ("menu", "Leave the set"),
    )

    assert learning.seen == ["repetition", "reveal", "menu", "lesson", "menu"]


def test_without_lessons_none_comes_unasked(history: History) -> None:
    learning = Learning(history, 0.9)

    learning.walk(run_set(BLIP, learning.setting, 1))

    assert learning.seen == ["repetition", "reveal"]


def test_a_player_of_an_earlier_version_sees_no_lesson_of_what_was_played(
    history: History,
) -> None:
    for level in (HOLD, BY_ID["ease-1-slow"]):
        add_repetition(history, record(level=level.id, kind=level.kind.name, trace=None))
    old = Taught(history)

    assert old.play(HOLD.id) == ["repetition", "reveal"]
    assert old.play("ease-3-one")[0] == "repetition"
    assert old.play("still-2a-squeeze")[0] == "lesson"


def test_what_was_played_with_the_mouse_has_not_been_seen(history: History) -> None:
    add_repetition(history, record(level=HOLD.id, kind="hold", feet=False, trace=None))

    assert Taught(history).play(HOLD.id)[0] == "lesson"


def test_easing_off_with_blips_has_a_lesson_after_that_without(taught: Taught) -> None:
    without = taught.play("ease-1-slow")
    with_blips = taught.play("ease-3-one", ("way", ROLL))

    assert (without[0], with_blips[:2]) == ("lesson", ["way", "lesson"])


def test_a_mixed_level_shows_the_lesson_of_what_it_draws(taught: Taught) -> None:
    names: list[object] = []

    def note(screen: Attended) -> None:
        names.append(screen.details()["lesson"])
        screen.on_action(Action.GO)

    setting = replace(taught.setting, levels=[HOLD])
    taught.walk(run_set(BY_ID["mix-1-any"], setting, 1), ("lesson", note))

    assert names == ["hold"]


def test_a_lesson_that_is_closed_with_the_window_is_shown_again(
    taught: Taught, history: History
) -> None:
    playing = run_set(HOLD, taught.setting, 1)
    closed = next(playing).screen
    playing.close()

    assert closed.name == "lesson"
    assert history.setting(SEEN_KEY) == []
    assert taught.play(HOLD.id)[0] == "lesson"


def test_without_a_history_lessons_come_once_per_run(history: History) -> None:
    tried = Taught(history, Lessons(None))

    first, again = tried.play(BLIP.id, ("way", HEEL)), tried.play(BLIP.id)

    assert first[:2] == ["way", "lesson"]
    assert again[0] == "repetition"
    assert (history.setting(SEEN_KEY), history.setting(WAY_KEY)) == (None, None)
    assert tried.setting.lessons is not None
    assert tried.setting.lessons.way is Way.HEEL


def test_a_placing_set_shows_the_lesson_of_each_new_kind_once(
    taught: Taught, history: History
) -> None:
    taught.walk(
        find_place(taught.setting, history, LEVELS),
        ("before placing", "Begin"),
        ("way", ROLL),
        ("placed", "Home"),
    )
    shown = taught.seen.count("lesson")

    assert 1 < shown <= len(MOVES)
    assert taught.seen.index("lesson") < taught.seen.index("repetition")


@pytest.mark.parametrize("saved", ["roll over", 3, None, ["heel"]])
def test_a_way_that_cannot_be_understood_is_asked_for(history: History, saved: object) -> None:
    history.keep_setting(WAY_KEY, saved)

    assert saved_way(history) is None


def test_lessons_that_cannot_be_understood_are_shown_again(history: History) -> None:
    history.keep_setting(SEEN_KEY, {"hold": 1})

    assert Lessons(history).seen == ()


def test_a_lesson_is_never_a_measured_window(taught: Taught) -> None:
    paces = set[Pace]()

    def look(screen: Attended) -> None:
        screen.on_motion(allowed=True)
        paces.add(screen.pace)
        screen.on_action(Action.GO)

    taught.play(HOLD.id, ("lesson", look))
    taught.play("ease-3-one", ("way", ROLL), ("lesson", look))

    assert paces == {Pace.SMOOTH}
    assert taught.setting.lessons is not None
    assert EASING_BLIPS in taught.setting.lessons.seen
