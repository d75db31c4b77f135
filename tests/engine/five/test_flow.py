"""Five minutes from home to the end of the day, by a foot alone: what was said is what is kept."""

from collections.abc import Iterator
from dataclasses import dataclass, field
from datetime import timedelta

import numpy as np
import pygame
import pytest

from drills.trace import SECOND
from engine.drill.demonstration import Demonstration
from engine.five.saved import sessions_on
from engine.game.flow import CAUTIONS_READ, play
from engine.game.offer import Offer
from engine.kit.base import Screen
from engine.kit.canvas import Fonts
from engine.kit.timed_screen import TOP as TIME_LINE
from engine.practice.results import Purpose, Session, SessionKind
from engine.practice.retention import Retention
from engine.practice.steadiness import FIRST_STEP
from engine.store import History, Record, ledger, open_history
from engine.store.retention import all_retention
from tests.engine.five.learning_foot import BY_ID, DATE, LEVELS, Learning, passes
from tests.engine.five.unattended import BAND, FIRST, Minutes, passed_on, whys
from tests.engine.kit.recording_canvas import RecordingCanvas
from tests.engine.walking import choose, sit_through
from tests.stored import all_results

DUE = BY_ID["blip-1-first"]
MINUTES = 2.0


@dataclass
class Story:
    """What was seen, told and kept from the start of the program to its end."""

    history: History
    """What is kept."""
    records: list[Record] = field(default_factory=list)
    """Each repetition as it was told."""
    seen: list[tuple[str, dict[str, object]]] = field(default_factory=list)
    """The name of each screen, and what it said."""
    timed: list[tuple[str, bool]] = field(default_factory=list)
    """The name of each screen, and whether the time left was on it."""
    lasted: float = 0.0
    """s, from the choice to the end of the day, without the lessons."""
    taught: float = 0.0
    """s that lessons took."""

    @property
    def names(self) -> list[str]:
        """The names of the screens."""
        return [name for name, _ in self.seen]

    @property
    def session(self) -> Session:
        """The five minutes as they are kept."""
        [one] = sessions_on(self.history, DATE.date())
        return one

    def said(self, name: str) -> dict[str, object]:
        """What the one screen of a name said."""
        [said] = [details for one, details in self.seen if one == name]
        return said


def is_timed(screen: object) -> bool:
    """Whether the time left is on a screen."""
    assert isinstance(screen, Screen)
    canvas = RecordingCanvas((640, 360), Fonts())
    screen.paint(canvas, 0.0)
    return any(start[1] == end[1] == TIME_LINE for start, end in canvas.lines)


@pytest.fixture(scope="module")
def story(tmp_path_factory: pytest.TempPathFactory) -> Iterator[Story]:
    """Two minutes of a foot of some skill with one level due, begun by one choice."""
    pygame.font.init()
    with open_history(tmp_path_factory.mktemp("five"), []) as history:
        history.keep_setting(CAUTIONS_READ, True)
        for level in (BY_ID["still-1-light"], DUE):
            passed_on(history, level, 0 if level is not DUE else 1, took=5.0)
        passes(history, *(one for one in LEVELS if one.id.startswith(("still", "blip-0"))))
        learning, told = Learning(history, 0.5, seed=4), Story(history)
        offer = Offer(LEVELS, BAND, Demonstration(DUE, 1, 3, 1.0), MINUTES)
        setting = learning.setting
        rng = np.random.default_rng(1)
        for scene in play(setting.rig, setting.stage, history, offer, rng, setting.now):
            screen = scene.screen
            screen.on_focus(True, learning.clock())
            told.seen.append((screen.name, dict(screen.details())))
            told.timed.append((screen.name, is_timed(screen)))
            if screen.name in ("home", "day end"):
                told.lasted = learning.clock() / SECOND - told.taught
                choose(screen, {"home": "Five minutes", "day end": "Leave"}[screen.name])
            else:
                began = learning.clock()
                sit_through(scene, learning.clock)
                if screen.name == "lesson":
                    told.taught += (learning.clock() - began) / SECOND
        told.records = [one for _, one in learning.audience.records]
        yield told


def test_one_choice_runs_to_the_end_of_the_day_by_itself(story: Story) -> None:
    assert story.names[0] == "home"
    assert story.names[-1] == "day end"
    assert set(story.names[1:-1]) == {"lesson", "repetition", "reveal", "moment", "shown"}
    assert story.seen[0][1]["five"] == "next: 1 check-up, steadiness, then Closer"


def test_every_repetition_is_stored_with_its_purpose_and_its_time(story: Story) -> None:
    session = story.session

    assert (session.what, session.minutes, session.over) == (SessionKind.FIVE, MINUTES, True)
    assert list(session.results) == all_results(story.history)[2:]
    assert [one.why for one in story.records] == whys(session)
    reasons = [Purpose.DUE, Purpose.BAND, Purpose.LEARN, Purpose.MIX, Purpose.DARK]
    assert list(dict.fromkeys(whys(session))) == reasons
    assert all(one.took is not None and 1 < one.took < 60 for one in session.results)


def test_five_minutes_end_on_time_and_lessons_take_none_of_it(story: Story) -> None:
    kept = sum(one.took or 0.0 for one in story.session.results)

    assert story.taught > 5
    assert kept == pytest.approx(story.lasted, abs=6.0)
    assert abs(story.lasted - 60 * MINUTES) < 15


def test_the_time_left_is_between_repetitions_and_never_inside(story: Story) -> None:
    timed = {name: {on for one, on in story.timed if one == name} for name in story.names}

    assert timed["repetition"] == {False}
    assert timed["reveal"] == {True}
    assert timed["shown"] == {True}


def test_the_last_three_or_more_are_in_the_dark(story: Story) -> None:
    dark = whys(story.session).count(Purpose.DARK)

    assert dark >= 3
    assert whys(story.session)[-dark:] == [Purpose.DARK] * dark
    beside = {"moment", "lesson"}
    *last, end = [name for name in story.names if name not in beside][-dark - 1 :]
    assert (last, end) == (["repetition"] * dark, "day end")
    assert "moment" not in story.names[-dark - 2 : -2]


def test_retention_checks_come_first_and_their_screen_agrees_with_the_history(story: Story) -> None:
    before = story.names[: story.names.index("shown")]
    due = [one for one in story.session.results if one.why is Purpose.DUE]
    said = story.said("shown")

    assert before[1:] == ["repetition"] * len(due) + ["moment"]
    assert {one.level for one in due} == {DUE.id}
    retention = all_retention(story.history)[DUE.id]
    assert retention.first == tuple(one.clean for one in due)
    assert (said["word"], said["title"]) == ("Retained.", DUE.title)
    assert said["clean"] == sum(retention.first) == 4
    assert retention.due is not None
    assert said["due_days"] == (retention.due - DATE.date()).days == 3


def test_each_steadiness_blip_is_asked_the_next_tolerance_of_the_staircase(story: Story) -> None:
    blips = [one for one in story.records if one.why is Purpose.BAND]

    asked = 20.0
    for one in blips:
        assert one.asked is not None
        assert one.asked == pytest.approx(asked, abs=0.06)
        size = max(one.verdict.measures[name] or 0.0 for name in ("dip", "surge"))
        inside = size <= one.asked
        assert one.verdict.clean == inside
        asked = one.asked * FIRST_STEP if inside else one.asked / FIRST_STEP**3
    assert len(blips) >= 3
    assert {one.verdict.clean for one in blips} == {True, False}
    assert [one.asked for one in story.records if one.why is not Purpose.BAND] == [None] * (
        len(story.records) - len(blips)
    )


def test_each_repetition_says_its_reason_and_a_steadiness_blip_its_tolerance(
    story: Story,
) -> None:
    said = [details["why"] for name, details in story.seen if name == "repetition"]
    titles = {level.id: level.title for level in LEVELS}
    assert said == [
        {
            Purpose.DUE: "check-up: 1 day later",
            Purpose.BAND: f"steadiness within {one.asked or 0.0:.0f} points",
            Purpose.LEARN: f"new: {titles.get(one.level)}",
            Purpose.MIX: f"revision: {titles.get(one.level)}",
            Purpose.DARK: "nothing shown",
        }[one.why]
        for one in story.records
    ]


def test_the_day_at_the_end_agrees_with_the_history(story: Story) -> None:
    said, results = story.said("day end"), story.session.results

    counted = [one for one in results if not one.void]
    assert said["parts"] == [
        (name, whys(story.session).count(why))
        for name, why in {
            "check-up": Purpose.DUE,
            "steadiness": Purpose.BAND,
            "new: Closer": Purpose.LEARN,
            "revision": Purpose.MIX,
            "nothing shown": Purpose.DARK,
        }.items()
    ]
    assert (said["counted"], said["clean"]) == (len(counted), sum(one.clean for one in counted))
    assert said["kept"] == (DUE.title,)
    assert said["seconds"] == pytest.approx(story.lasted, abs=6.0)
    assert said["early"] is False
    streaks = ledger.streaks(story.history, DATE.date())
    passed_before = 1
    assert streaks.today == len(counted) + passed_before
    assert streaks.clean_today == sum(one.clean for one in counted) + passed_before


def test_a_missed_check_is_due_tomorrow_and_its_level_stays_passed(history: History) -> None:
    passed_on(history, FIRST, 1)
    minutes = Minutes(history, lambda number: 8.0 if number in (0, 2, 4, 5) else 0.0)

    minutes.play(minutes=1.0)

    [said] = minutes.details_of("shown")
    first = (False, True, False, True, False)
    tomorrow = DATE.date() + timedelta(days=1)
    assert (said["word"], said["clean"], said["due_days"]) == ("Not today: it stays passed.", 2, 1)
    assert all_retention(history)[FIRST.id] == Retention(tomorrow, 0, True, DATE.date(), first)
    assert FIRST.id in ledger.passed(history)
    [day] = minutes.details_of("day end")
    assert (day["kept"], day["passed"], day["due_tomorrow"]) == ((), (), 1)
