"""Fixtures: games on fake devices, and a history."""

from collections.abc import Iterator
from pathlib import Path

import pytest

from engine.store import History, open_history
from tests.engine.game.rigged import REST, Rigged
from tests.engine.pedals.joysticks import Pad
from tests.engine.setup.plugged_devices import Bench


@pytest.fixture
def pad() -> Pad:
    """Fake pedal set of three axes at rest."""
    return Pad(REST, REST, REST)


@pytest.fixture
def game(tmp_path: Path, pad: Pad) -> Iterator[Rigged]:
    """Game with one pedal set plugged in and nothing saved."""
    rigged = Rigged(tmp_path, pad)
    with rigged.history:
        yield rigged


@pytest.fixture
def bare(tmp_path: Path) -> Iterator[Rigged]:
    """Game with nothing plugged in and nothing saved."""
    rigged = Rigged(tmp_path)
    with rigged.history:
        yield rigged


@pytest.fixture
def history(tmp_path: Path) -> Iterator[History]:
    """New, empty history."""
    with open_history(tmp_path, []) as new:
        yield new


@pytest.fixture
def bench(tmp_path: Path) -> Iterator[Bench]:
    """Fake devices with nothing saved."""
    made = Bench(tmp_path)
    with made.history:
        yield made


@pytest.fixture
def ready(bench: Bench) -> Bench:
    """Fake devices whose three pedals are set up."""
    bench.walk(*bench.everything())
    bench.notes.clear()
    return bench
