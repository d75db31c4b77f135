"""The page of what is pressed: its sentences agree with its numbers, and its chart with both."""

from dataclasses import replace
from datetime import date

import pytest

from engine.kit import theme
from engine.practice.sense import Squeeze, sense_of
from engine.practice.size_made import SizeMade
from engine.progress.history_pages import PAGES
from engine.progress.history_screens import LINE_TOP, HistoryPage
from engine.progress.progress import Progress
from engine.progress.sense_page import size_words
from tests.engine.kit.recording_canvas import recorded, said
from tests.engine.practice.squeezing import squeezes

TODAY = date(2024, 5, 17)
PAGE = PAGES["sense"]
SMALL = SizeMade(60.0, 48.2, 11.4, 44.1, 52.3, 40)


def of(played: list[Squeeze], size: SizeMade | None = None) -> Progress:
    """Progress of a player of these squeezes."""
    return Progress(TODAY, squeezes=tuple(played), sense=sense_of(played), size=size)


def test_a_fault_is_told_with_its_weight_and_that_it_is_asked_more_often() -> None:
    words = PAGE.words(of(squeezes(40, gain=0.85, offset=6.0, miss=0.01), SMALL))

    assert words.lead == "At 75 you press 5 too little."
    assert words.line == (
        "Squeezes ask for 75 more often. Blips: asked 60, made 48 ± 11, too small."
    )
    assert "Mean of your last 40 blips: likely 44 to 52 %." in words.figures


def test_too_much_is_told_as_that() -> None:
    words = PAGE.words(of(squeezes(40, gain=1.12, miss=0.0)))

    assert words.lead == "At 75 you press 9 too much."


def test_a_true_foot_is_told_how_near_it_is() -> None:
    words = PAGE.words(of(squeezes(60, miss=0.03)))

    assert words.lead.startswith("You press what you mean, within ")
    assert words.line == ""


def test_what_is_not_sure_is_told_as_that() -> None:
    shown = of(squeezes(30, miss=0.15))
    words = PAGE.words(shown)

    assert shown.sense is not None
    assert words.lead == f"Not sure yet: you may be {shown.sense.furthest} points off."


def test_before_thirty_squeezes_it_is_too_early() -> None:
    words = PAGE.words(of(squeezes(12)))

    assert words.lead == "Too early to say: 12 of 30 squeezes."
    assert "your line, and its likely range" not in said(HistoryPage(of(squeezes(12)), "sense"))


def test_of_one_weight_nothing_is_said_about_others() -> None:
    heavy = PAGE.words(of(squeezes(40, offset=5.0, miss=0.02, weights=(60, 60))))
    true = PAGE.words(of(squeezes(40, miss=0.02, weights=(60, 60))))

    assert heavy.lead == "At 60 you press 5 too much."
    assert heavy.line == "Only 60 was asked: other weights are not known."
    assert true.lead.startswith("At 60 you press what you mean, within ")


def test_of_mostly_one_weight_it_is_not_said_that_only_that_was_asked() -> None:
    few = [Squeeze(TODAY, 35.0, 36.0), Squeeze(TODAY, 73.0, 74.0)]
    words = PAGE.words(of([*squeezes(38, miss=0.02, weights=(60, 60)), *few]))

    assert words.line == "Mostly about 60 was asked: other weights are not known."


def test_without_squeezes_the_size_of_blips_stands_among_the_figures() -> None:
    shown = of([], SMALL)

    assert PAGE.missing(shown) == "comes with the first squeeze"
    assert PAGE.words(shown).lead == ""
    assert PAGE.words(shown).figures[0] == "Blips: asked 60, made 48 ± 11, too small."


@pytest.mark.parametrize(
    ("low", "high", "told"),
    [(58.0, 62.0, ""), (52.0, 56.9, ", too small"), (63.1, 70.0, ", too big"), (56.0, 64.0, "")],
)
def test_a_size_is_called_wrong_only_where_it_is_sure(low: float, high: float, told: str) -> None:
    made = replace(SMALL, mean=(low + high) / 2, low=low, high=high)

    assert size_words(made) == f"Blips: asked 60, made {made.mean:.0f} ± 11{told}."


def test_the_chart_has_a_dot_for_each_squeeze() -> None:
    shown = of(squeezes(40, gain=0.85, offset=6.0))

    canvas = recorded(HistoryPage(shown, "sense"))

    dots = [centre for centre, colour in canvas.discs if colour == theme.EARLIER]
    assert len(dots) == 40 + 1  # and the sample of one


def test_a_squeeze_off_the_scale_is_drawn_on_its_edge() -> None:
    wild = [*squeezes(39), Squeeze(TODAY, 75.0, 130.0), Squeeze(TODAY, 35.0, -3.0)]

    canvas = recorded(HistoryPage(of(wild), "sense"))

    ys = [y for (_, y), colour in canvas.discs if colour == theme.EARLIER]
    assert max(ys) <= theme.BAR
    assert min(ys) >= LINE_TOP


@pytest.mark.parametrize(
    ("gain", "offset", "label"), [(0.85, 6.0, "5 too little"), (1.12, 0.0, "9 too much")]
)
def test_a_sure_error_is_marked_with_its_number_off_dots_and_lines(
    gain: float, offset: float, label: str
) -> None:
    shown = of(squeezes(40, gain=gain, offset=offset, miss=0.01))

    canvas = recorded(HistoryPage(shown, "sense"))

    [words] = [text.ink for text in canvas.texts if text.text == label]
    dots = [centre for centre, colour in canvas.discs if colour == theme.EARLIER]
    assert not any(words.collidepoint(*centre) for centre in dots)
    grid = [ends for ends in canvas.lines if ends[0][1] == ends[1][1]]
    assert not any(words.clipline(*ends) for ends in grid)


def test_an_error_that_is_not_sure_has_no_mark() -> None:
    canvas = recorded(HistoryPage(of(squeezes(60, miss=0.03)), "sense"))

    assert not any("too" in text.text for text in canvas.texts)
    assert not any(colour == theme.TEXT for _, colour in canvas.discs)


def test_the_sense_is_one_dot_where_one_weight_was_asked_and_a_curve_where_many_were() -> None:
    one, many = (
        recorded(HistoryPage(of(played), "sense"))
        for played in (squeezes(40, weights=(60, 60)), squeezes(40))
    )

    assert sum(colour == theme.BRAKE for _, colour in one.discs) == 1
    assert not any(colour == theme.BRAKE for _, colour in many.discs)
