"""A history with something of everything: made once, only read."""

from pathlib import Path

import pytest

from tests.store.whole import make


@pytest.fixture(scope="session")
def data(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """A data folder with something of everything."""
    folder = tmp_path_factory.mktemp("data")
    make(folder)
    return folder
