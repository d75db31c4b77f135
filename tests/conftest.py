"""Settings of every test: one hypothesis profile, and one cache of compiled modules."""

import os
import shutil
import tempfile

import pytest
from hypothesis import settings

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
