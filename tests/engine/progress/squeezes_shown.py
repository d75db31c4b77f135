"""Made-up squeezes and blips, and the pages of the history on what was pressed."""

from collections.abc import Callable, Mapping, Sequence
from dataclasses import replace
from datetime import date, timedelta
from typing import Any

import numpy as np

from engine.practice.blip_size import BLIP
from engine.practice.sense import Squeeze, sense_of
from engine.practice.size_made import SizedBlip, size_made
from engine.progress.history_screens import HistoryPage
from engine.progress.progress import Progress


def squeezes(
    today: date, count: int, error: Callable[[float], float], spread: float = 0.05
) -> tuple[Squeeze, ...]:
    """Squeezes of 35 to 75, four a day, that miss by an error and some points beside it."""
    return tuple(
        Squeeze(today - timedelta(days=ago // 4), asked, asked + error(asked) + asked * wave)
        for ago, asked, wave in (
            (ago, 35.0 + 17 * ago % 41, spread * float(np.sin(2.4 * ago)))
            for ago in range(count - 1, -1, -1)
        )
    )


def sixty(one: Squeeze) -> Squeeze:
    """The same squeeze as a weight of 60 was asked, and pressed by a few points too heavy."""
    return replace(one, asked=60.0, pressed=64 + one.pressed - one.asked)


def with_squeezes(shown: Progress, played: Sequence[Squeeze]) -> Progress:
    """The same progress with other squeezes."""
    return replace(shown, squeezes=tuple(played), sense=sense_of(played))


def pressed(today: date, days: int) -> dict[str, Any]:
    """What squeezes and sized blips tell after so many days: too few, then a fault."""
    played = squeezes(today, min(days // 2, 60), lambda asked: 6 - 0.15 * asked)
    blips = [
        SizedBlip(today - timedelta(days=ago // 6), 48 + 11 * float(np.sin(2.4 * ago)))
        for ago in range(min(6 * days, 40) - 1, -1, -1)
    ]
    return {
        "squeezes": played,
        "sense": sense_of(played),
        "size": size_made(blips, BLIP),
    }


def sense_screens(shown: Progress) -> Mapping[str, HistoryPage]:
    """Pages on the sense of pressure by a name, beside those of a fault."""
    played = {
        "right": squeezes(shown.today, 60, lambda asked: 0.005 * asked),
        "unsure": squeezes(shown.today, 30, lambda asked: 4 - 0.08 * asked, 0.2),
        "one weight": [sixty(one) for one in shown.squeezes],
    }
    return {
        f"history sense, {name}": HistoryPage(with_squeezes(shown, of), "sense")
        for name, of in played.items()
    }
