"""A history with something of everything: made once, only read."""

from pathlib import Path

import pytest

from engine.store import open_history
from tests.store.copies import backed_up
from tests.store.whole import make


@pytest.fixture(scope="session")
def data(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """A data folder with something of everything."""
    folder = tmp_path_factory.mktemp("data")
    make(folder)
    return folder


@pytest.fixture(scope="module")
def backup(data: Path, tmp_path_factory: pytest.TempPathFactory) -> Path:
    """A backup of a history with something of everything."""
    return backed_up(data, tmp_path_factory.mktemp("backup") / "mine")


@pytest.fixture
def old(tmp_path: Path) -> Path:
    """A data folder with a history of one setting."""
    folder = tmp_path / "old"
    with open_history(folder, []) as history:
        history.keep_setting("sound", False)
    return folder
