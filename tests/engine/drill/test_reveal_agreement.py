"""Mark, word, bubble, sentence, figure and picture of a reveal say the same of every repetition."""

import re
from collections.abc import Iterator
from functools import cache

import numpy as np
import pygame
import pytest

from drills.deviation import Deviation
from drills.level import Level
from drills.remark import Headline
from drills.score import Reason, Verdict
from engine.drill.reveal import LIGHT, MARK, VERDICT, Reveal
from engine.drill.reveal_facts import RevealFacts
from engine.kit import theme
from engine.kit.base import Place
from engine.kit.canvas import Colour, Fonts, Point
from engine.ladder.level_files import load_band
from tests.engine.kit.recording_canvas import RecordingCanvas
from tests.engine.repetitions_shown import Shown
from tests.engine.shipped_played import BY_ID, LEVELS, repetitions

BAND = load_band()
COUNT = 4
SKILLS = (0.0, 0.4, 0.9)
NAMES = (
    *("still-1-light", "still-2-firm", "still-2a-squeeze", "blip-0-roll", "blip-1-first"),
    *("blip-3-good", "blip-5-still", "run-2-three", "run-4-quick", "run-5-four", "ease-1-slow"),
    *("ease-3-one", "ease-5-two", "clutch-2-quiet", "clutch-3-quick", "count-2-quick"),
    *("zone-1-gatehouse", "zone-3-quarry", "zone-6-summit"),
    BAND.id,
)
ALLOWED = re.compile(r"(\d+(?:\.\d+)?) (?:allowed|at most)")

each = pytest.mark.parametrize("name", NAMES)


class Seen(RecordingCanvas):
    """Canvas that records how thick circles are, and where a figure is large."""

    def __init__(self) -> None:
        pygame.font.init()
        super().__init__((1920, 1080), Fonts())
        self.surface.set_clip(pygame.Rect(0, 0, 0, 0))
        self.circles: list[tuple[Point, float]] = []

    def disc(self, centre: Point, radius: float, colour: Colour, line: float = 0.0) -> None:
        """Record a circle."""
        super().disc(centre, radius, colour, line)
        self.circles.append((centre, line))

    @property
    def said(self) -> str:
        """All that is written, in the order in which it was."""
        return " ".join(text.text for text in self.texts)

    @property
    def large(self) -> list[str]:
        """Texts as large as the one figure."""
        return [text.text for text in self.texts if text.size == theme.FIGURE]


@cache
def played(name: str) -> tuple[Level, list[Shown]]:
    """Repetitions of a level by simulated feet of several skills."""
    level = BY_ID.get(name, BAND)
    return level, [shown for skill in SKILLS for shown in repetitions(level, skill, 29, COUNT)]


def seen(level: Level, shown: Shown) -> Seen:
    """Reveal of a repetition, drawn."""
    record = shown.record
    canvas = Seen()
    Reveal(RevealFacts(level, record.verdict, shown.deviation, (), Place(1, 10))).paint(canvas, 0.0)
    return canvas


def decided() -> Iterator[tuple[Level, Verdict, Headline, Deviation]]:
    """Repetitions of every level whose picture shows a place or an average that decided."""
    for name in NAMES:
        level, repetitions_of = played(name)
        for shown in repetitions_of:
            verdict, picture = shown.record.verdict, shown.deviation
            headline = level.kind.headline(level, verdict)
            if picture is not None and headline is not None and not verdict.void:
                yield level, verdict, headline, picture


@each
def test_mark_word_and_light_follow_the_verdict(name: str) -> None:
    level, repetitions_of = played(name)

    for shown in repetitions_of:
        verdict, canvas = shown.record.verdict, seen(level, shown)
        mark = [line for at, line in canvas.circles if at == (theme.MARGIN + MARK, VERDICT)]
        lights = [box for box in canvas.boxes if box.size == (theme.WIDTH, LIGHT)]
        words = {
            "Not judged": verdict.void,
            "Clean": verdict.clean and not level.is_staircase,
            "Inside": verdict.clean and level.is_staircase,
        }
        [word] = [word for word, holds in words.items() if holds] or [canvas.texts[0].text]
        assert canvas.texts[0].text == word
        assert word in (*words, "Not clean", "Outside")
        assert len(lights) == verdict.clean
        assert [line > 0 for line in mark] == ([] if verdict.void else [not verdict.clean])


@each
def test_sentence_cue_and_the_one_figure_are_written_as_the_kind_says(name: str) -> None:
    level, repetitions_of = played(name)

    for shown in repetitions_of:
        verdict, canvas = shown.record.verdict, seen(level, shown)
        remark = level.kind.remark(level, verdict)
        headline = None if verdict.void else level.kind.headline(level, verdict)
        assert f"{remark.sentence()} {remark.cue()}".strip() in canvas.said
        assert canvas.large == ([] if headline is None else [headline.value])
        assert headline is None or headline.words in canvas.said


@each
def test_the_bubble_is_where_the_brake_was(name: str) -> None:
    level, repetitions_of = played(name)

    for shown in repetitions_of:
        verdict, canvas = shown.record.verdict, seen(level, shown)
        lean = None if verdict.void else level.kind.lean(level, verdict)
        lines = [start[0] for start, end in canvas.lines if start[0] == end[0]]
        if lean is None:
            continue
        middle = sum(lines[:2]) / 2
        bubble = next(at for at, _ in canvas.circles if at[1] == VERDICT and at[0] > 300)
        assert np.sign(round(bubble[0] - middle)) == np.sign(lean)
        assert verdict.clean <= (lean == 0)


def test_the_number_at_the_worst_place_is_the_large_figure() -> None:
    for _, _, headline, picture in decided():
        if picture.worst is not None and picture.worst.label:
            assert picture.worst.label == headline.value


def test_the_worst_place_lies_on_the_curve_or_is_a_mean_of_it() -> None:
    for _, verdict, _, picture in decided():
        worst = picture.worst
        if worst is None or not picture.time[0] <= worst.at <= picture.time[-1]:
            continue
        near = np.abs(picture.time - worst.at) < 0.15
        low, high = picture.deviation[near].min(), picture.deviation[near].max()
        assert low - 0.01 <= worst.deviation <= high + 0.01, verdict


def test_the_limit_at_the_curve_is_that_of_the_large_figure() -> None:
    for _, verdict, headline, picture in decided():
        drawn = ALLOWED.search("" if picture.decides is None else picture.decides.label)
        asked = ALLOWED.search(headline.words)
        if drawn is not None and asked is not None:
            assert float(drawn[1]) == float(asked[1])
        if picture.average is not None and asked is not None:
            assert picture.average.limit == f"{asked[1]} allowed"
            assert picture.average.label == headline.value
            over = abs(picture.average.line[1]) > abs(picture.average.allowed[1])
            assert over == (not verdict.clean)


def test_the_bubble_is_on_the_side_of_the_worst_place() -> None:
    for level, verdict, _, picture in decided():
        lean = level.kind.lean(level, verdict)
        if picture.worst is not None and lean:
            assert np.sign(lean) == np.sign(picture.worst.deviation), verdict


def test_a_missed_limit_is_crossed_at_the_worst_place_and_a_kept_one_is_not() -> None:
    for _, verdict, _, picture in decided():
        worst, bound = picture.worst, picture.decides
        weighed = verdict.reason in (Reason.CLEAN, Reason.OVER_LIMIT)
        if worst is None or bound is None or not weighed or "allowed" not in bound.label:
            continue
        low = -np.inf if bound.low is None else bound.low
        high = np.inf if bound.high is None else bound.high
        assert (low - 1e-9 <= worst.deviation <= high + 1e-9) == verdict.clean, verdict


def test_the_feet_end_in_many_ways_on_every_kind() -> None:
    verdicts = [shown.record.verdict for name in NAMES for shown in played(name)[1]]

    assert len({verdict.reason for verdict in verdicts}) >= 6
    assert 60 < sum(verdict.clean for verdict in verdicts) < len(verdicts) - 60
    assert {BY_ID.get(name, BAND).kind.name for name in NAMES} == {
        level.kind.name for level in LEVELS
    } - {"mixed"}
