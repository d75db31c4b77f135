"""Contradictions between the picture, the sentence and the verdict of one repetition."""

import re

import numpy as np

from drills.deviation import Bound, Deviation
from drills.level import Level
from drills.score import Verdict

DRAWN = {
    "dip": "dip",
    "overshoot": "surge",
    "coming back": "rebound",
    "settled": "settle",
    "end": "offset",
    "straight": "ramp_worst",
    "line": "line_worst",
}
"""The measure of each limit that is drawn, by the first words of its label."""
OF_THROTTLE = ("blip was too light", "blip was too big", "blip had too")
HEAVY = (
    *(
        "rose",
        "heavier",
        "too heavy",
        "heavy on average",
        "points heavy",
        "heavy for",
        "went above",
        "overshot",
    ),
    *("past its target", "over its way", "pressed harder", "not eased off", "off too slowly"),
    *("never came all the way off", "over its target", "pushed the brake"),
    *("past the peak", "over its line"),
)
LIGHT = (
    *(
        "fell",
        "lighter",
        "too light",
        "light on average",
        "points light",
        "light for",
        "came off altogether",
    ),
    *("left before", "left early", "let go", "was lost", "took too much brake", "lost brake"),
    *(
        "took the most brake",
        "under its line",
        "missing",
        "dip",
        "under its way",
        "short of",
        "not pressed",
        "under its target",
    ),
)
NUMBER = re.compile(r"\d+(?:\.\d+)?")
HALF = 0.0005
"""s, half a grid step."""


def drawn(picture: Deviation) -> dict[str, list[Bound]]:
    """The limits of a picture by their measures; one without a label goes on with one before.

    A tolerance that is drawn as a help to the eye alone is none of them.
    """
    found: dict[str, list[Bound]] = {}
    sides: dict[tuple[bool, bool], str] = {}
    for bound in picture.bounds:
        shape = (bound.low is None, bound.high is None)
        if bound.label:
            words = (word for word in DRAWN if bound.label.startswith(word))
            sides[shape] = DRAWN.get(next(words, ""), "")
        found.setdefault(sides[shape], []).append(bound)
    found.pop("", None)
    return found


def is_crossed(picture: Deviation, name: str, bounds: list[Bound]) -> bool:
    """Whether the curve leaves a limit where it is drawn; where it ended counts by its mean."""
    for bound in bounds:
        first, last = bound.during
        inside = (picture.time >= first - HALF) & (picture.time < last - HALF)
        seen = picture.deviation[inside]
        if not seen.size:
            continue
        if name == "offset":
            seen = np.array([seen.mean()])
        if bound.low is not None and seen.min() < bound.low - 1e-9:
            return True
        if bound.high is not None and seen.max() > bound.high + 1e-9:
            return True
    return False


def contradictions(level: Level, verdict: Verdict, picture: Deviation | None) -> list[str]:
    """Measures over their limit in the picture and within it in the verdict, or the reverse.

    Where the brake settled after a blip is left out: it may leave the band again.
    """
    if picture is None or not picture.is_measured:
        return []
    squeezed = level.kind.name == "squeeze"
    return [
        name
        for drawn_as, bounds in drawn(picture).items()
        if (name := "overshoot" if squeezed and drawn_as == "surge" else drawn_as)
        if (name != "settle" or squeezed)
        and is_crossed(picture, name, bounds) != (name in verdict.over)
    ]


def leaning_of(said: str) -> int:
    """The way the brake went by the words of a sentence: -1 light, 1 heavy, 0 neither.

    Only the sentence counts, not the cue after it.
    """
    sentence = said.partition(". ")[0]
    if any(words in sentence for words in OF_THROTTLE):
        return 0
    if any(words in sentence for words in HEAVY):
        return 1
    return -1 if any(words in sentence for words in LIGHT) else 0


def wrong_amount(level: Level, verdict: Verdict, said: str) -> bool:
    """Whether a sentence has a number that the large figure has, or one that is not the bias."""
    figure = level.kind.headline(level, verdict)
    numbers = set() if verdict.void else set(NUMBER.findall(said))
    if figure is not None and numbers & set(NUMBER.findall(f"{figure.value} {figure.words}")):
        return True
    bias = abs(verdict.amount("constant_error"))
    return any(abs(float(number) - bias) > 0.051 for number in numbers)
