"""Start of the program, also when it is interrupted while it loads."""

from tests.scripted import printed

LOADING = """
import sys
from importlib.abc import MetaPathFinder

class Impatient(MetaPathFinder):
    def find_spec(self, name, path, target=None):
        if name == "engine.commands.main":
            raise KeyboardInterrupt

sys.meta_path.insert(0, Impatient())
from engine.__main__ import run
print(run())
"""
LOADED = """
import sys
sys.argv = ["stillfoot", "--version"]
from engine.__main__ import run
print(run())
"""


def test_ctrl_c_while_the_program_is_loaded_ends_it_quietly() -> None:
    assert printed(LOADING) == ["130"]


def test_it_runs_with_the_arguments_of_the_process() -> None:
    version, code = printed(LOADED)

    assert version.startswith("stillfoot ")
    assert code == "0"
