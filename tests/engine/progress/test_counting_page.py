"""The page of what counting costs: its chart shows what its sentences say."""

from datetime import date

from engine.drill.cost_chart import MOST_MONTHS
from engine.practice.changes import Change, Changed
from engine.practice.counting_cost import CostOverTime
from engine.progress.history_pages import PAGES
from engine.progress.history_screens import HistoryPage
from engine.progress.progress import Progress
from tests.engine.five.unattended import DATE
from tests.engine.kit.recording_canvas import said
from tests.engine.progress.costs_shown import falling

TODAY = date(2024, 5, 17)
PAGE = PAGES["counting"]


def of(cost: CostOverTime) -> Progress:
    """Progress of a player whom counting costs so much."""
    return Progress(TODAY, counting=cost)


def months_said(cost: CostOverTime) -> list[str]:
    """What is written below the chart, from the left to the right."""
    names = {f"{date(2024, month, 1):%b}" for month in range(1, 13)} | {"now"}
    texts = said(HistoryPage(of(cost), "counting"))
    return [text for text in texts if text.split()[0] in names and len(text) < 10]


def test_the_chart_ends_with_now_and_begins_with_the_month_that_is_told() -> None:
    cost = falling(TODAY, 50, 11.0, 3.0)

    months = months_said(cost)

    assert len(months) == MOST_MONTHS + 1
    assert (months[0], months[-1]) == ("Jun 2023", "now")
    assert PAGE.words(of(cost)).line.startswith("In Jun 2023 it was ")


def test_a_month_that_is_the_present_cost_is_drawn_once() -> None:
    assert months_said(falling(TODAY, 2, 9.0, 9.0)) == ["now"]


def test_before_there_are_enough_pairs_the_page_says_when_its_chart_comes() -> None:
    nothing, few = of(CostOverTime()), of(falling(TODAY, 1, 6.0, 6.0))

    assert PAGE.words(nothing).sentences == []
    assert PAGE.words(few).lead == "Too early to say: 6 of 12 pairs."
    assert PAGE.missing(few) == "comes with 12 pairs of blips, with and without counting"


def test_another_scale_of_the_brake_is_said_with_the_figures() -> None:
    changed = Change(DATE, Changed.SCALE, 4)
    shown = Progress(TODAY, counting=falling(TODAY, 2, 9.0, 9.0), changes=(changed,))

    assert "New brake scale since 17 May." in PAGE.words(shown).figures
