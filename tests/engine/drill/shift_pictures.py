"""Reveals of repetitions with a shift button, for tests that draw them."""

from collections.abc import Mapping
from typing import Any

from engine.drill.reveal import Reveal
from engine.drill.reveal_facts import RevealFacts
from engine.kit.base import Place, Screen
from tests.drills.kinds.shift_cases import ASKED


def shift_screens() -> Mapping[str, Screen[Any]]:
    """Reveals of every made repetition with a shift button, by name."""
    return {
        f"reveal of {case.name}": Reveal(
            RevealFacts(case.made.level, case.made.verdict, case.made.picture, (), Place(2, 10))
        )
        for case in ASKED
    }
