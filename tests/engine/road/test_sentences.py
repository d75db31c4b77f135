"""Every sentence on the screens of drives, and in the terminal, is short."""

import re

from engine.road.summary import summary_of
from engine.road.summary_words import summary_words
from engine.road.words import NO_DRILL, NOT_EASED, transfer_words
from tests.engine.kit.sentences import MOST_WORDS, too_long, whole_texts
from tests.engine.road.pictures import drills, long_drive, road_screens
from tests.engine.road.test_figures_agree import beside

SCREENS = {name: screen for name, screen in road_screens().items() if "more with" not in name}
GONE = re.compile(r"median|middle bold|otherwise|Taken as meant|Drill \d|road \d")
"""Words that the screens of drives no longer use."""


def test_no_sentence_on_a_screen_has_more_than_twelve_words() -> None:
    long = {
        (name, one)
        for name, screen in SCREENS.items()
        for one in too_long(screen)
        # Names of files, and lists of figures and warnings of the recording, are no sentences.
        if "/" not in one and "," not in one and not one.startswith("Note:")
    }

    assert long == set()


def test_no_sentence_in_the_terminal_has_more_than_twelve_words() -> None:
    drive = long_drive()
    eased = list(drills([7.0 + number % 4 for number in range(46)]).dips)
    compared = beside(drive, eased, eased)
    lines = summary_words(summary_of(drive.blips), drive.seconds)

    told = [*lines, *transfer_words(drive, compared), NO_DRILL, NOT_EASED]

    sentences = [one for line in told for one in re.split(r"(?<=[.?!])\s", line)]
    assert [one for one in sentences if len(one.split()) > MOST_WORDS] == []


def test_words_that_a_driver_would_not_say_are_gone() -> None:
    said = {
        (name, text)
        for name, screen in SCREENS.items()
        for text in whole_texts(screen)
        # The legend of the chart is not of this room.
        if GONE.search(text) and text != "median"
    }

    assert said == set()
