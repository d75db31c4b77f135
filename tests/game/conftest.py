"""Starts the scripted days as soon as it is known that their tests will run."""

import shutil
import tempfile
from pathlib import Path

import pytest

from tests.game.days import ScriptedDays

DAYS = pytest.StashKey[ScriptedDays]()
HERE = Path(__file__).parent


def pytest_collection_finish(session: pytest.Session) -> None:
    """Start the days while other tests run: a person at the pedals mostly waits."""
    wanted = any(HERE in item.path.parents for item in session.items)
    if wanted and not session.config.option.collectonly:
        folder = tempfile.mkdtemp(prefix="stillfoot-days-")
        session.config.stash[DAYS] = ScriptedDays(Path(folder))


def pytest_sessionfinish(session: pytest.Session) -> None:
    """End the days, so that no process is left behind."""
    days = session.config.stash.get(DAYS, None)
    if days is not None:
        days.close()
        shutil.rmtree(days.folder)


@pytest.fixture(scope="session")
def days(pytestconfig: pytest.Config) -> ScriptedDays:
    """Scripted days of play, which run from the end of the collection on."""
    return pytestconfig.stash[DAYS]
