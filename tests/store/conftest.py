"""A history with something of everything, and what is written of it: made once, only read."""

from pathlib import Path

import pytest

from tests.store.exported import export, make


@pytest.fixture(scope="session")
def data(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """A data folder with something of everything."""
    folder = tmp_path_factory.mktemp("data")
    make(folder)
    return folder


@pytest.fixture(scope="session")
def exported(data: Path, tmp_path_factory: pytest.TempPathFactory) -> Path:
    """What is written of it."""
    folder = tmp_path_factory.mktemp("exported") / "csv"
    export(data, folder)
    return folder
