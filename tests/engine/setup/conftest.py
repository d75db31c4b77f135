"""Pads of two rigs: one that stays at home, one that travels."""

import pytest

from tests.engine.game.rigged import REST
from tests.engine.pedals.joysticks import Pad


@pytest.fixture
def home_pad() -> Pad:
    """Pedals of the rig at home."""
    return Pad(REST, REST, REST, name="Heavy set", guid="a" * 32)


@pytest.fixture
def travel_pad() -> Pad:
    """Pedals of the rig that travels."""
    return Pad(REST, REST, name="Light set", guid="b" * 32)
