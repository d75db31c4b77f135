"""Start of the program, also when it is interrupted while it loads."""

import pytest

from tests.scripted import printed

LOADING = """
import sys
from importlib.abc import MetaPathFinder

class Impatient(MetaPathFinder):
    def find_spec(self, name, path, target=None):
        if name == "engine.commands.main":
            raise KeyboardInterrupt

sys.meta_path.insert(0, Impatient())
from engine.__main__ import {start}
print({start}())
"""
LOADED = """
import sys
sys.argv = ["stillfoot", "--version"]
from engine.__main__ import {start}
print({start}())
"""
STARTS = pytest.mark.parametrize("start", ["run", "run_game"])


@STARTS
def test_ctrl_c_while_the_program_is_loaded_ends_it_quietly(start: str) -> None:
    assert printed(LOADING.format(start=start)) == ["130"]


@STARTS
def test_it_runs_with_the_arguments_of_the_process(start: str) -> None:
    version, *_, code = printed(LOADED.format(start=start))

    assert version.startswith("stillfoot ")
    assert code == "0"
