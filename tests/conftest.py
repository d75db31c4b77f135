"""Settings of every test: a hypothesis profile, a cache of compiled modules, no wait for a disk."""

import os
import shutil
import tempfile
from collections.abc import Iterator

import pytest
from hypothesis import settings

from engine.store import opening

settings.register_profile(
    "suite", derandomize=True, deadline=None, max_examples=40, print_blob=True
)
settings.load_profile("suite")

COMPILED = pytest.StashKey[str]()
"""Folder of the modules that processes of tests have compiled."""


def pytest_configure(config: pytest.Config) -> None:
    """Let the processes that tests start share compiled modules where Python may write none.

    Otherwise each of them compiles the whole game again.
    """
    if os.environ.pop("PYTHONDONTWRITEBYTECODE", ""):
        config.stash[COMPILED] = tempfile.mkdtemp(prefix="stillfoot-compiled-")
        os.environ["PYTHONPYCACHEPREFIX"] = config.stash[COMPILED]


def pytest_unconfigure(config: pytest.Config) -> None:
    """Remove the compiled modules."""
    if COMPILED in config.stash:
        shutil.rmtree(config.stash[COMPILED], ignore_errors=True)


@pytest.fixture(autouse=True, scope="session")
def disk_is_not_waited_for() -> Iterator[None]:
    """Let histories of this process store without a wait for the disk: no test cuts the power.

    Processes that tests start wait for it as the game does.
    """
    with pytest.MonkeyPatch.context() as patch:
        patch.setattr(opening, "DURABLE", "OFF")
        yield
