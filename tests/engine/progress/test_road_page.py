"""The page of drill and road: what it says, and what it draws."""

from dataclasses import replace
from datetime import timedelta

from engine.kit import theme
from engine.progress.history_pages import PAGES
from engine.progress.page_words import PageWords
from engine.progress.progress import Progress
from engine.progress.road_page import road_words
from engine.road.course import DriveDay, RoadCourse
from engine.road.summary import Middle
from tests.engine.progress.pictures import TODAY
from tests.engine.progress.test_charts import drawn

ROAD = Middle(60, 12.4, 9.0, 15.0)
BOTH = {"trail": 7.25, "blip": 6.5}
PAGE = "drill and road"


def with_drives(*drives: DriveDay, **left: int) -> Progress:
    """Progress with these drives."""
    return Progress(TODAY, road=RoadCourse(drives, **left))


def day(ago: int, **drills: float) -> DriveDay:
    """A drive so many days ago beside such drills."""
    return DriveDay(TODAY - timedelta(days=ago), ROAD, drills)


def test_road_and_easing_off_come_first_and_single_blips_are_said_to_be_measured_otherwise() -> (
    None
):
    assert road_words(with_drives(day(9), day(1, **BOTH))) == PageWords(
        "Typical dip on the road: 12.4 points, easing off 7.2.",
        "Newest drive: 16 May. Easing off is from your drills.",
        (
            "2 days with drives.",
            "Single blips 6.5, against what was held.",
            "Drills: today's level, the last 10 days with practice before a drive.",
        ),
    )


def test_without_easing_off_the_page_says_what_brings_it() -> None:
    said = road_words(with_drives(day(1, blip=6.5)))

    assert said.lead == "Typical dip on the road: 12.4 points."
    assert said.line == (
        "Newest drive: 16 May. Easing off comes once a level was played on 5 days."
    )


def test_drives_that_are_left_out_are_counted_with_the_reason() -> None:
    assert road_words(with_drives(older=1, other_rigs=2, other_scale=3)).sentences == [
        "3 drives left out: the brake had another scale.",
        "2 drives left out: driven with other pedals.",
        "1 drive left out: an older measure. `stillfoot score FILE --keep` measures again.",
    ]


def test_the_page_waits_for_the_first_drive() -> None:
    page = PAGES[PAGE]

    assert page.missing(with_drives()) == "comes with the first recorded drive that has blips"
    assert page.missing(with_drives(day(0))) == ""


def test_the_legend_names_only_what_is_drawn() -> None:
    alone, both = with_drives(day(3)), with_drives(day(3, **BOTH), day(1, **BOTH))

    said = {text.text for text in drawn(alone, PAGE).texts}
    more = {text.text for text in drawn(both, PAGE).texts}

    assert "drives, and the middle half of their blips" in said
    assert more - said == {"easing off in drills"}


def test_each_drive_is_a_dot_inside_the_shade_of_its_middle_half() -> None:
    low = replace(ROAD, dip=3.0, low=2.0, high=4.0)
    drives = (day(8), DriveDay(TODAY, low, {}))

    page = drawn(with_drives(*drives), PAGE)

    (x, y), (later, lower) = [at for at, colour in page.discs if colour == theme.BRAKE][-2:]
    [(_, shade)] = [one for one in page.fills if one[0] == theme.DIP]
    spans = {round(at): [down for across, down in shade if across == at] for at, _ in shade}
    assert x < later
    assert y < lower
    assert min(spans[round(x)]) < y < max(spans[round(x)])
    assert min(spans[round(later)]) < lower < max(spans[round(later)])
