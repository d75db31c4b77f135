"""Every sentence on the screens of trials is short, and none is said twice on a screen."""

import re
from collections import Counter

import numpy as np

from drills.deviation import Deviation
from engine.trial.setup_screens import TrialLevel
from tests.engine.kit.sentences import too_long, whole_texts
from tests.engine.trial.days_pictures import days_screens
from tests.engine.trial.pictures import trial_screens
from tests.made import level

FLAT = np.zeros(100)
BLIPS = [Deviation(FLAT, FLAT, (-0.5, 1.5))]
SCREENS = {
    name: screen
    for name, screen in {**trial_screens([level()], BLIPS), **days_screens()}.items()
    # The purposes of levels are not of this room, the newer texts of typing neither.
    if not isinstance(screen, TrialLevel)
}
GONE = re.compile("less A|middle|luck|Above|anew|Look at past|did not count|otherwise")
"""Words that the screens of trials no longer use."""


def test_no_sentence_has_more_than_twelve_words() -> None:
    long = {(name, one) for name, screen in SCREENS.items() for one in too_long(screen)}

    assert long == set()


def test_no_sentence_is_said_twice_on_a_screen() -> None:
    twice = {
        (name, text)
        for name, screen in SCREENS.items()
        for text, count in Counter(whole_texts(screen)).items()
        if count > 1 and re.search(r"\w\.$", text)
    }

    assert twice == set()


def test_words_that_a_driver_would_not_say_are_gone() -> None:
    said = {
        (name, text)
        for name, screen in SCREENS.items()
        for text in whole_texts(screen)
        if GONE.search(text)
    }

    assert said == set()
