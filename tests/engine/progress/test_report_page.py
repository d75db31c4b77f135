"""The HTML report: complete by itself, escaped, with the same charts and words as the window."""

import re
import xml.etree.ElementTree as ET
from dataclasses import replace
from html.parser import HTMLParser

import pygame
import pytest

from engine.kit import theme
from engine.kit.area import Area
from engine.kit.canvas import Fonts
from engine.kit.svg import NAMES, SvgCanvas
from engine.ladder.level_files import SHIPPED, load_levels
from engine.progress.history_pages import PAGES, Page
from engine.progress.learning_curve_words import CurveWords
from engine.progress.report_page import PRINTED, WIDTH, as_html
from tests.engine.kit.recording_canvas import RecordingCanvas
from tests.engine.progress.pictures import CHANGES, no_progress, progress

LEVELS = load_levels([SHIPPED])
EMPTY = {"meta"}
SVG = re.compile(r"<svg .*?</svg>", re.DOTALL)
DECADE = progress(LEVELS, 3650, CHANGES)
PAGE = as_html(DECADE, "1.2.3")


class Outline(HTMLParser):
    """Elements of a page, checked to be closed in order, and their text."""

    def __init__(self, page: str) -> None:
        super().__init__()
        self.open: list[str] = []
        self.elements: list[tuple[str, dict[str, str | None]]] = []
        self.text: list[tuple[str, str]] = []
        self.feed(page)
        self.close()

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        """Record an element that is opened."""
        self.elements.append((tag, dict(attrs)))
        if tag not in EMPTY:
            self.open.append(tag)

    def handle_startendtag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        """Record an element without content."""
        self.elements.append((tag, dict(attrs)))

    def handle_endtag(self, tag: str) -> None:
        """Check that the element closed is the one opened last."""
        assert self.open.pop() == tag

    def handle_data(self, data: str) -> None:
        """Record text with the element that it is in."""
        if self.open and data.strip():
            self.text.append((self.open[-1], data.strip()))


def test_the_page_is_well_formed_with_its_language_its_title_and_headings_in_order() -> None:
    outline = Outline(PAGE)

    assert PAGE.startswith("<!DOCTYPE html>\n")
    assert outline.open == []
    assert outline.elements[0] == ("html", {"lang": "en"})
    assert ("title", "stillfoot: progress on 17 May 2024") in outline.text
    levels = [int(tag[1]) for tag, _ in outline.elements if re.fullmatch(r"h[1-6]", tag)]
    assert levels == [1, 2, 2, 2, 2, 2, 2, 3, 3, 3, 3, 3, 3, 2, 2, 2, 2, 2]


def test_the_page_loads_nothing_and_runs_no_progress() -> None:
    outline = Outline(PAGE)

    tags = {tag for tag, _ in outline.elements}
    names = {name for _, attributes in outline.elements for name in attributes}
    assert tags.isdisjoint({"script", "img", "link", "iframe", "object", "image", "use", "a"})
    assert names.isdisjoint({"src", "href", "xlink:href", "srcset", "style"})
    assert not [name for name in names if name.startswith("on")]
    assert "url(" not in PAGE
    assert "@import" not in PAGE
    assert "//" not in PAGE


def test_each_chart_is_whole_by_itself_and_has_a_name() -> None:
    charts = [ET.fromstring(one) for one in SVG.findall(PAGE)]

    names = [chart.attrib["aria-label"] for chart in charts]
    questions = [page.question for page in PAGES.values()]
    assert len(charts) == 10 + 6  # ten pages, and a curve of each of six kinds
    assert names == [*questions[:5], *(kind.name for kind in DECADE.kinds), *questions[6:]]
    assert all(chart.attrib["role"] == "img" for chart in charts)


def test_sentences_are_escaped() -> None:
    kind = replace(DECADE.kinds[0], words=CurveWords('Since "<grip>" & soles'))

    page = as_html(replace(DECADE, kinds=(kind,)), "<1>")

    assert ": since &quot;&lt;grip&gt;&quot; &amp; soles Error " in page
    assert "Made by stillfoot &lt;1&gt;." in page


def test_the_name_of_a_stage_is_escaped_in_its_chart() -> None:
    own = replace(DECADE, stages=(replace(DECADE.stages[0], name='<b> & "mine"'),))

    page = as_html(own, "1.2.3")

    assert "&lt;b&gt; &amp; &quot;mine&quot;" in page
    assert "<b>" not in page


def test_the_name_of_a_chart_is_escaped() -> None:
    written = SvgCanvas(100.0, 50.0).done('a "<chart>"')

    assert 'aria-label="a &quot;&lt;chart&gt;&quot;"' in written
    assert ET.fromstring(written).attrib["aria-label"] == 'a "<chart>"'


@pytest.mark.parametrize("page", PAGES.values(), ids=PAGES)
def test_a_chart_in_the_report_has_the_words_of_the_chart_in_the_window(page: Page) -> None:
    pygame.font.init()
    height = page.height(DECADE)
    area = Area(theme.MARGIN, 0.0, theme.WIDTH - 2 * theme.MARGIN, height)
    window = RecordingCanvas((theme.WIDTH, theme.HEIGHT), Fonts())
    written = SvgCanvas(theme.WIDTH, height)

    page.paint(window, area, DECADE)
    page.paint(written, area, DECADE)

    words = {text.text for text in window.texts}
    drawn = [one.text for one in ET.fromstring(written.done("a chart")).iter("text")]
    assert [word for word in drawn if word not in words] == []
    # The picture of the coach has one curve, and no scale of points.
    assert len(drawn) > (6 if page.name == "coach" else 8)


def test_no_word_of_a_chart_reaches_over_its_edge() -> None:
    charts = [ET.fromstring(one) for one in SVG.findall(PAGE)]

    measure = SvgCanvas(WIDTH, 0.0).measure
    ends = [
        (text.text, left, left + wide)
        for chart in charts
        for text in chart.iter("text")
        for wide in [measure(str(text.text), theme.SMALL)]
        for shift in [{"start": 0.0, "middle": 0.5, "end": 1.0}[text.attrib["text-anchor"]]]
        for left in [float(text.attrib["x"]) - shift * wide]
    ]
    assert [one for one in ends if one[1] < -5 or one[2] > WIDTH + 5] == []


def test_every_colour_has_a_place_on_a_screen_and_in_print() -> None:
    used = set(re.findall(r'class="[fs]-(\w+)"', PAGE))

    assert used <= set(NAMES.values()) == set(PRINTED)
    assert all(f"--{name}: {colour};" in PAGE for name, colour in PRINTED.items())


def luminance(colour: str) -> float:
    """Relative luminance of a colour such as "#ffffff" (WCAG 2.1; from memory)."""
    parts = [int(colour[at : at + 2], 16) / 255 for at in (1, 3, 5)]
    linear = [one / 12.92 if one <= 0.03928 else ((one + 0.055) / 1.055) ** 2.4 for one in parts]
    return 0.2126 * linear[0] + 0.7152 * linear[1] + 0.0722 * linear[2]


@pytest.mark.parametrize(("name", "least"), [("text", 7.0), ("quiet", 4.5), ("brake", 3.0)])
def test_print_is_dark_on_light_and_can_be_read(name: str, least: float) -> None:
    ground, ink = luminance(PRINTED["raised"]), luminance(PRINTED[name])

    assert (ground + 0.05) / (ink + 0.05) >= least


def test_before_any_practice_the_page_says_when_each_chart_comes() -> None:
    page = as_html(no_progress(LEVELS), "1.2.3")

    assert page.count("<p>Nothing yet: comes ") == 9
    assert len(SVG.findall(page)) == 2  # the blips that steadiness waits for, and the levels
