"""No test waits for a fixed time: what tests wait for is waited for by `tests/waiting.py`."""

import ast
import re
from collections.abc import Iterator
from pathlib import Path

import pytest

TESTS = Path(__file__).resolve().parent
WAITS = {
    "waiting.py": "the one place that waits",
    "bench": "a benchmark measures time and is no test",
}
"""Files and folders that may wait for a fixed time, with the reason."""
PACED = {
    "waiting.py": "defines wait_until",
    "rig.py": "a virtual device reports at a rate of its own",
    "pedals_process.py": "the health check takes half a minute",
    "record_process.py": "a recording lasts as long as it is asked to",
    "game/scripted_foot.py": "a foot takes its time from one position to another",
    "game/beginner.py": "feet look and press for as long as a person's",
    "game/player.py": "feet stay off for as long as a person's",
    "game/shifting.py": "a hand presses at its own time after a cue",
    "game/twins.py": "a foot takes its time from one position to another",
    "game/scripts.py": "feet that must not be heard stay where they are for a while",
}
"""Files that may use `wait_until`, for what has a pace of its own, with the reason."""
PACE = re.compile(r"\bwait_until\b")
"""The name of the function that waits for a moment."""
PRIMITIVES = {"Event", "Condition"}
"""Classes of `threading` whose `wait` with a timeout is a sleep."""
ASLEEP = re.compile(r"\bsleep\(|^sleep \d")
"""A sleep in a script that a test keeps as text, or as a command."""


def fixed_waits(source: str) -> list[int]:
    """The lines of a file that wait for a fixed time, in order."""
    tree = ast.parse(source)
    primitives = set(_primitives(tree))
    return sorted({line for node in ast.walk(tree) for line in _waits(node, primitives)})


def _primitives(tree: ast.AST) -> Iterator[str]:
    """Names and attributes that hold something of `threading` that can be waited for."""
    for node in ast.walk(tree):
        if isinstance(node, ast.Assign | ast.AnnAssign) and _makes_primitive(node.value):
            targets = node.targets if isinstance(node, ast.Assign) else [node.target]
            yield from (ast.unparse(target) for target in targets)


def _makes_primitive(node: ast.AST | None) -> bool:
    if not isinstance(node, ast.Call):
        return False
    name = ast.unparse(node.func)
    return name in PRIMITIVES or name in {f"threading.{one}" for one in PRIMITIVES}


def _waits(node: ast.AST, primitives: set[str]) -> Iterator[int]:
    match node:
        case ast.ImportFrom(module="pygame.time"):
            yield node.lineno
        case ast.ImportFrom(names=names) if "sleep" in {name.name for name in names}:
            yield node.lineno
        case ast.Attribute(attr="sleep") | ast.Name(id="sleep"):
            yield node.lineno
        case ast.Attribute(attr="wait" | "delay" | "Clock", value=value) if ast.unparse(value) in (
            "pygame.time",
            "time",
        ):
            yield node.lineno
        case ast.Call(func=ast.Attribute(attr="wait", value=value), args=args, keywords=more) if (
            args or more
        ) and (ast.unparse(value) in primitives or _makes_primitive(value)):
            yield node.lineno
        case ast.Call(func=ast.Attribute(attr="select"), args=[*watched, _]) if [
            ast.unparse(one) for one in watched
        ] == ["[]"] * 3:
            yield node.lineno
        case ast.Call(func=ast.Name(id="getattr"), args=[_, ast.Constant(value="sleep"), *_]):
            yield node.lineno
        case ast.List(elts=[ast.Constant(value="sleep"), *_]):
            yield node.lineno
        case ast.Constant(value=str(text)) if ASLEEP.search(text):
            yield node.lineno


def name_of(path: Path) -> str:
    """The path of a file of the tests, from their folder on."""
    return path.relative_to(TESTS).as_posix()


FILES = [
    path
    for path in sorted(TESTS.rglob("*.py"))
    if path != Path(__file__) and WAITS.keys().isdisjoint(Path(name_of(path)).parts)
]


def test_helpers_are_looked_into_as_tests_are() -> None:
    names = [name_of(path) for path in FILES]

    assert {"rig.py", "game/player.py", "game/test_play.py"} <= set(names)


def test_no_test_sleeps() -> None:
    waits = {name_of(path): fixed_waits(path.read_text(encoding="utf-8")) for path in FILES}

    assert {name: lines for name, lines in waits.items() if lines} == {}


def test_only_what_has_a_pace_of_its_own_waits_for_a_moment() -> None:
    waiting = {name_of(path) for path in FILES if PACE.search(path.read_text(encoding="utf-8"))}

    assert waiting - PACED.keys() == set()


@pytest.mark.parametrize(
    "source",
    [
        "import time; time.sleep(1)",
        "import time as t; t.sleep(1)",
        "from time import sleep as rest; rest(1)",
        "import asyncio; asyncio.sleep(1)",
        "import time; rest = getattr(time, 'sleep')",
        "import pygame; pygame.time.wait(5)",
        "import pygame; pygame.time.delay(5)",
        "import pygame; pygame.time.Clock().tick(60)",
        "from pygame.time import wait; wait(5)",
        "from pygame import time; time.delay(5)",
        "import threading; done = threading.Event(); done.wait(0.5)",
        "import threading; threading.Event().wait(timeout=0.5)",
        "from threading import Condition; self.some = Condition(); self.some.wait(1)",
        "import select; select.select([], [], [], 0.5)",
        "import subprocess; subprocess.run(['sleep', '1'])",
        "import os; os.system('sleep 1')",
        "SCRIPT = 'import time\\ntime.sleep(1)'",
    ],
)
def test_every_way_to_wait_for_a_fixed_time_is_found(source: str) -> None:
    assert fixed_waits(source) == [1]


@pytest.mark.parametrize(
    "source",
    [
        "events.wait(lambda event: True, 5)",
        "process.wait(5)",
        "done = threading.Event(); done.wait()",
        "pygame.event.post(pygame.event.Event(pygame.QUIT))",
        "select.select([pipe], [], [], 5)",
        "wait_for(lambda: done)",
        "said = 'sleep does the rest'",
    ],
)
def test_waiting_for_something_is_none_of_them(source: str) -> None:
    assert fixed_waits(source) == []
