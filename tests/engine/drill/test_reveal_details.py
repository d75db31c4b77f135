"""The reveal on request: details, marks at the foot, guesses, staircases and void repetitions."""

from collections import Counter

import numpy as np
import pytest

from drills.deviation import Bound, Deviation, WorstPlace
from drills.score import Reason, Verdict
from drills.trace import Pedal
from engine.drill.reveal import Reveal, reading_time
from engine.drill.reveal_facts import RevealFacts
from engine.drill.reveal_figures import figures
from engine.drill.reveal_words import guess_words
from engine.kit import theme
from engine.kit.base import Place
from engine.kit.figures import Figure
from engine.kit.repetition_marks import Mark
from engine.kit.set_marks import MIDDLE
from engine.stage.actions import Action
from tests.engine.kit.recording_canvas import recorded
from tests.engine.pictures import reveal_of
from tests.engine.shipped_played import BY_ID, shipped_repetitions
from tests.made import level

TIME = np.linspace(-0.5, 1.5, 201)
VERDICT = Verdict(Reason.OVER_LIMIT, 41.25, ("dip",), {"dip": 19.5, "settle": None}, "dip")


@pytest.mark.parametrize(
    ("sentence", "cue", "seconds"),
    [("Still.", "", 1.2), ("Some brake went.", "Stay.", 2.2667), ("S" * 40, "c" * 30, 3.0)],
)
def test_a_clean_reveal_stays_as_long_as_it_takes_to_read(
    sentence: str, cue: str, seconds: float
) -> None:
    assert reading_time(sentence, cue) == pytest.approx(seconds, abs=1e-3)


@pytest.mark.parametrize(
    ("reason", "pictured"),
    [(Reason.ANTICIPATION, True), (Reason.GAP, False), (Reason.STALLED, False)],
)
def test_a_void_repetition_shows_no_figure_and_its_curve_only_where_that_helps(
    reason: Reason, pictured: bool
) -> None:
    verdict = Verdict(reason, pedal=Pedal.BRAKE)
    screen = Reveal(RevealFacts(level(), verdict, pictured_dip(), (), Place(3, 10)))

    drawing = recorded(screen)

    assert (theme.BRAKE in [colour for colour, _ in drawing.curves]) == pictured
    assert not any(text.size == theme.FIGURE for text in drawing.texts)
    assert not screen.looks


def pictured_dip() -> Deviation:
    """Picture of a dip of 22 points, with its worst place and limit, and a limit upwards."""
    dip = Bound("15 allowed", -15.0, None, (0.0, 1.0))
    curve = -22.0 * np.exp(-((TIME / 0.1) ** 2))
    bounds = (Bound("dip 15", -15.0, None, (0.0, 1.0)), Bound("over 12", None, 12.0, (0.0, 1.0)))
    worst = WorstPlace(0.0, -22.0, "22")
    return Deviation(TIME, curve, (-0.5, 1.5), 27.0, bounds=bounds, worst=worst, decides=dip)


@pytest.mark.parametrize("name", ["blip-1-first", "blip-5-still", "ease-5-two", "still-2-firm"])
def test_no_figure_of_the_details_stands_alone_in_a_row(name: str) -> None:
    [shown] = shipped_repetitions(name, 0.5, 7, 1)
    record = shown.record
    names = [one.name for one in figures(BY_ID[name], record.verdict, record.sampling)]
    screen = reveal_of(BY_ID[name], [shown])
    screen.on_action(Action.NEXT)

    drawn = [text for text in recorded(screen).texts if text.text in names]

    rows = Counter(round(text.ink.top / 60) for text in drawn)
    assert sum(rows.values()) == len(names)
    assert max(rows.values()) - min(rows.values()) <= 1


def test_the_details_have_all_figures_and_limits_and_the_reveal_only_one() -> None:
    asked = level(limits={"dip": 15.0, "surge": 12.0})
    measures = {"dip": 22.0, "surge": 3.0, "reaction": 0.3}
    verdict = Verdict(Reason.OVER_LIMIT, 41.0, ("dip",), measures, "dip")
    screen = Reveal(RevealFacts(asked, verdict, pictured_dip(), (), Place(3, 10)))

    one = recorded(screen)
    screen.on_action(Action.NEXT)
    all_of_it = recorded(screen)

    said, told = ({text.text for text in drawing.texts} for drawing in (one, all_of_it))
    detail = {"Score", "41", "22 points", "3 points", "0.30 s", "dip 15", "over 12"}
    assert detail <= told
    assert not (detail - {"22 points"}) & said
    assert {"15 allowed", "22"} <= said


def test_the_marks_of_the_set_stand_at_the_foot_and_this_one_is_underlined() -> None:
    marks = (Mark.CLEAN, Mark.MISSED, Mark.VOID, Mark.MISSED)
    place = Place(3, 10, marks=marks)

    drawing = recorded(Reveal(RevealFacts(level(), VERDICT, None, (), place)))

    row = [at for at, _ in drawing.discs if at[1] == MIDDLE]
    [under] = [box for box in drawing.boxes if box.height == 4]
    assert len(row) == len(marks) - 1 + place.to_come
    assert under.centerx == pytest.approx(row[2][0], abs=1)


@pytest.mark.parametrize(
    ("guess", "worst", "words"),
    [
        (9.0, "dip", "You said 9 points."),
        (9.0, "settle", "You said 9 points, it was 12 points."),
        (12.0, "settle", "You said 12 points: right."),
    ],
)
def test_a_guess_is_compared_without_writing_the_large_figure_twice(
    guess: float, worst: str, words: str
) -> None:
    verdict = Verdict(Reason.CLEAN, 60.0, (), {"dip": 12.2, "settle": 0.4}, worst)

    assert guess_words(level(), verdict, guess) == words


@pytest.mark.parametrize(
    ("staircase", "reason", "word"),
    [
        (True, Reason.CLEAN, "Inside"),
        (True, Reason.OVER_LIMIT, "Outside"),
        (True, Reason.NO_BLIP, "Not clean"),
        (False, Reason.OVER_LIMIT, "Not clean"),
    ],
)
def test_a_staircase_has_no_failures_and_no_score(
    staircase: bool, reason: Reason, word: str
) -> None:
    asked, verdict = level(is_staircase=staircase), Verdict(reason, 23.0, (), {"dip": 19.0}, "dip")

    names = [figure.name for figure in figures(asked, verdict)]

    assert asked.kind.word(asked, verdict) == word
    assert ("Score" in names) != staircase


@pytest.mark.parametrize(
    ("reason", "figure"),
    [
        (Reason.NO_BLIP, Figure("Blips", "none", "one blip was asked", failed=True)),
        (Reason.LIGHT, Figure("Blip", "18 %", "blip, 30 at least", failed=True)),
        (
            Reason.OFF_TARGET,
            Figure("Off target", "8", "points light in the dark, 5 allowed", failed=True),
        ),
    ],
)
def test_what_was_missed_replaces_the_other_figures(reason: Reason, figure: Figure) -> None:
    verdict = Verdict(reason, 0.0, (), {"peak": 18.2, "base": 52.0, "base_error": -8.0})

    assert figures(level(), verdict) == [Figure("Score", "0", "of 100"), figure]
