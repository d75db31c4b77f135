"""Contradictions between the picture, the sentence and the verdict of one repetition."""

import re

import numpy as np

from drills.deviation import Bound, Deviation
from drills.level import Level
from drills.score import Reason, Verdict

DRAWN = {
    "dip": "dip",
    "above": "surge",
    "back over": "rebound",
    "past": "overshoot",
    "steady": "settle",
    "end": "offset",
    "way": "ramp_worst",
}
"""The measure of each limit that is drawn, by the first words of its label."""
LIGHT = (
    *("The brake fell", "came off the brake", "lighter", "light side", "easing off", "let go in"),
    *("let go after", "ended light", "light for too long", "well short", "not pressed"),
    *("gave brake", "costs", "cost too much", "came off altogether", "and fell"),
)
HEAVY = (
    *("The brake rose", "came back", "heavier", "heavy side", "pressing harder", "went"),
    *("stood", "ended heavy", "heavy for too long", "not eased off", "never let go", "too slowly"),
)
AMOUNT = r"(?:fell|rose|ended|came back|went|stood|was|way down,|blip,) (?:about )?(\d+(?:\.\d+)?)"
AMOUNT_IN = re.compile(AMOUNT + " points")
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
    return [
        name
        for name, bounds in drawn(picture).items()
        if (name != "settle" or level.kind.name == "squeeze")
        and is_crossed(picture, name, bounds) != (name in verdict.over)
    ]


def leaning_of(said: str) -> int:
    """The way the brake went by the words of a sentence: -1 light, 1 heavy, 0 neither."""
    if any(words in said for words in LIGHT):
        return -1
    return 1 if any(words in said for words in HEAVY) else 0


def wrong_amount(level: Level, verdict: Verdict, said: str) -> bool:
    """Whether a sentence gives points that are not those of the measure that failed."""
    amount = AMOUNT_IN.search(said)
    if amount is None or verdict.reason is not Reason.OVER_LIMIT:
        return False
    value, shown = abs(verdict.measures[verdict.worst] or 0.0), float(amount[1])
    return abs(shown - value) > 0.5 or shown <= level.limits[verdict.worst]
