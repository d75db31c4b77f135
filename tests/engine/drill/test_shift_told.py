"""The reveal tells a shift once: in its sentence where it decided, else in one quiet line."""

import re

import pygame
import pytest

from drills.kinds import shift_words
from engine.drill.reveal import Reveal
from engine.drill.reveal_facts import RevealFacts
from engine.kit import theme
from engine.kit.base import Place
from engine.kit.canvas import Fonts
from engine.kit.looks import Look
from tests.drills.kinds.shift_cases import ASKED, Case
from tests.engine.kit.recording_canvas import RecordingCanvas

each = pytest.mark.parametrize("case", ASKED, ids=[case.name for case in ASKED])


def drawn(case: Case, look: Look = Look.MAIN) -> RecordingCanvas:
    """The reveal of a repetition, drawn with one look."""
    pygame.font.init()
    one, canvas = case.made, RecordingCanvas((1920, 1080), Fonts())
    reveal = Reveal(RevealFacts(one.level, one.verdict, one.picture, (), Place(1, 10)))
    reveal.looks.now = look
    reveal.paint(canvas, 0.0)
    return canvas


@each
def test_the_quiet_line_is_written_once_and_only_where_there_is_one(case: Case) -> None:
    texts = drawn(case).texts

    told = re.compile("shift .*peak[.]|had no shift[.]", re.IGNORECASE)
    small = [text.text for text in texts if told.search(text.text) and text.size == theme.SMALL]
    assert small == ([case.note] if case.note else [])


@each
def test_a_shift_that_decided_is_told_in_sentence_and_figure_and_not_again(case: Case) -> None:
    verdict, texts = case.made.verdict, drawn(case).texts

    large = [text.text for text in texts if text.size == theme.FIGURE]

    value = shift_words.deciding(verdict)
    if value is not None:
        assert large == [f"{abs(value):.2f} s"]
        assert case.note == ""


@each
def test_the_presses_have_a_name_beside_the_plot(case: Case) -> None:
    picture = case.made.picture

    named = [text.text for text in drawn(case).texts].count("shift")

    assert picture is not None
    assert named == bool(picture.shifts)


@each
def test_all_figures_hold_the_shift_where_a_button_is_bound(case: Case) -> None:
    texts = [text.text for text in drawn(case, Look.FIGURES).texts]

    is_bound = case.made.done.trace.shift is not None
    assert texts.count("Shift after peak") == is_bound
