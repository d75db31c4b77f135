"""Garbage collection while the program is loaded, and after it."""

from tests.scripted import printed

LOADED = """
import gc
from engine.commands.loading import loading

with loading():
    import engine.commands.main
    made = gc.get_count()[0], gc.isenabled()
print(made[0] > gc.get_threshold()[0], made[1])
print(gc.get_freeze_count() > made[0], gc.isenabled())
"""
FAILED = """
import gc
from engine.commands.loading import loading

try:
    with loading():
        raise KeyboardInterrupt
except KeyboardInterrupt:
    print(gc.isenabled())
"""


def test_nothing_is_collected_while_the_program_is_loaded() -> None:
    before, after = printed(LOADED)

    # Far more was made than a collection waits for.
    assert before == "True False"
    assert after == "True True"


def test_collection_goes_on_where_loading_was_interrupted() -> None:
    [line] = printed(FAILED)

    assert line == "True"
