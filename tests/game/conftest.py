"""Starts the days of play as soon as it is known that their tests will run."""

import shutil
import tempfile
from pathlib import Path

import pytest

from tests.game.days import Plays

PLAYS = pytest.StashKey[Plays]()
HERE = Path(__file__).parent


def pytest_collection_finish(session: pytest.Session) -> None:
    """Start them while other tests run: a person at the pedals mostly waits."""
    wanted = any(HERE in item.path.parents for item in session.items)
    if wanted and not session.config.option.collectonly:
        folder = tempfile.mkdtemp(prefix="stillfoot-plays-")
        session.config.stash[PLAYS] = Plays(Path(folder))


def pytest_sessionfinish(session: pytest.Session) -> None:
    """Leave no process behind."""
    plays = session.config.stash.get(PLAYS, None)
    if plays is not None:
        plays.close()
        shutil.rmtree(plays.folder)


@pytest.fixture(scope="session")
def plays(pytestconfig: pytest.Config) -> Plays:
    """The days of play."""
    return pytestconfig.stash[PLAYS]
