"""A history with something of everything: made once, only read."""

import shutil
from pathlib import Path

import pytest

from engine.store import open_history
from engine.store.history import FILE
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


@pytest.fixture
def damaged(data: Path, tmp_path: Path) -> Path:
    """A history with something of everything, to be damaged."""
    return Path(shutil.copy(data / FILE, tmp_path / "damaged.sqlite3"))


@pytest.fixture
def target(tmp_path: Path) -> Path:
    """Where the salvaged history goes."""
    (tmp_path / "new").mkdir()
    return tmp_path / "new" / FILE
