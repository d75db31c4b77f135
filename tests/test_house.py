"""The house: arrows point down only, and every file can be held in the head."""

import ast
import subprocess
import sys
import tomllib
from collections.abc import Iterator, Sequence
from functools import cache
from pathlib import Path
from typing import Any

ROOT = Path(__file__).resolve().parents[1]
CODE = sorted([*(ROOT / "drills").rglob("*.py"), *(ROOT / "engine").rglob("*.py")])
PACKAGING = sorted([*(ROOT / ".package").glob("*.py"), *(ROOT / ".github").glob("*.py")])
LEVELS = sorted(path for path in (ROOT / "levels").rglob("*") if path.is_file())
LONGEST = 300
OURS = {"drills", "engine"}
ANYWHERE = ("drills", "engine.errors", "engine.console", "engine.date_words")
"""What every room may import."""
FLOORS = {
    "practice": (),
    "pedals": (),
    "store": ("practice",),
    "salvage": ("store", "practice"),
    "stage": ("pedals", "practice"),
    "kit": ("stage", "pedals"),
    "drill": ("kit", "stage", "pedals", "store", "practice"),
    "setup": ("drill", "kit", "stage", "pedals", "store", "practice"),
    "ladder": ("drill", "kit", "stage", "pedals", "store", "practice"),
    "five": ("drill", "kit", "stage", "pedals", "store", "practice"),
    "progress": ("drill", "kit", "stage", "pedals", "store", "practice"),
    "trial": ("drill", "kit", "stage", "pedals", "store", "practice"),
    "road": ("drill", "kit", "stage", "pedals", "store", "practice"),
    "game": (
        *("setup", "ladder", "five", "progress", "trial", "road"),
        *("drill", "kit", "stage", "pedals", "store", "practice"),
    ),
    "commands": (
        *("game", "setup", "ladder", "five", "progress", "trial", "road"),
        *("drill", "kit", "stage", "pedals", "salvage", "store", "practice"),
    ),
}
"""The rooms that each room of the engine may import: those on the floors below it."""
NEIGHBOURS = {
    ("five", "ladder"): "the climb is the picture of a day on which a level was passed",
    ("progress", "five"): "steadiness is one of the pictures of progress",
    ("progress", "ladder"): "the levels passed and retained are another, as steps of the ladder",
    ("progress", "road"): "the drives stand beside the drills in another",
    ("trial", "five"): "a trial suggests the next level, and one by days is played in five minutes",
}
"""Why a room may import another on its own floor."""


def name_of(path: Path) -> str:
    """The name of the module in a file."""
    parts = path.relative_to(ROOT).with_suffix("").parts
    return ".".join(parts[:-1] if parts[-1] == "__init__" else parts)


MODULES = {name_of(path): path for path in CODE}


@cache
def nodes(path: Path) -> Sequence[ast.AST]:
    """Every node of the syntax tree of a file, its module first; parsed once for all tests."""
    return tuple(ast.walk(ast.parse(path.read_text(encoding="utf-8"))))


@cache
def imports(name: str) -> frozenset[str]:
    """Every module that a module imports anywhere in it, of ours to the file."""
    return frozenset(_imports(name))


def _imports(name: str) -> Iterator[str]:
    for node in nodes(MODULES[name]):
        if isinstance(node, ast.Import):
            yield from (alias.name for alias in node.names)
        elif isinstance(node, ast.ImportFrom):
            assert node.level == 0, f"{name}: a relative import hides where the arrow points"
            module = node.module or ""
            inside = [f"{module}.{alias.name}" for alias in node.names]
            yield from (one if one in MODULES else module for one in inside)


def reached(name: str) -> set[str]:
    """Every module of ours that comes with a module, and the packages of others, by first name."""
    found: set[str] = set()
    waiting = [name]
    while waiting:
        for one in imports(waiting.pop()):
            kept = one if one in MODULES else one.partition(".")[0]
            if kept not in found:
                found.add(kept)
                if kept in MODULES:
                    waiting.append(kept)
    return found


def under(*packages: str) -> list[str]:
    """The modules of some packages."""
    return [name for name in MODULES if lies_in(name, *packages)]


def room_of(name: str) -> str:
    """The room of a module of the engine; of any other, the package it is in."""
    parts = name.split(".")
    return parts[1] if parts[0] == "engine" and len(parts) > 1 and parts[1] in FLOORS else parts[0]


def lies_in(name: str, *packages: str) -> bool:
    """Whether a module is one of some packages, or in one of them."""
    return any(f"{name}.".startswith(f"{one}.") for one in packages)


def calls(path: Path, name: str) -> list[int]:
    """The lines of a file that name something."""
    return [
        node.lineno
        for node in nodes(path)
        if (isinstance(node, ast.Attribute) and node.attr == name)
        or (isinstance(node, ast.Name) and node.id == name)
        or (isinstance(node, ast.ImportFrom) and name in {alias.name for alias in node.names})
    ]


def not_below(name: str) -> set[str]:
    """The modules that a module imports although they lie on no floor below it."""
    room = room_of(name)
    beside = tuple(other for one, other in NEIGHBOURS if one == room)
    allowed = (*ANYWHERE, *(f"engine.{one}" for one in (*FLOORS.get(room, ()), *beside)))
    ours = {one for one in imports(name) if one.partition(".")[0] in OURS}
    outside = {one for one in ours - {"engine"} if room_of(one) != room}
    return {one for one in outside if not lies_in(one, *allowed)}


def wrong(found: dict[str, Any]) -> dict[str, Any]:
    """Files with what is wrong in them: those of which anything was found."""
    return {name: faults for name, faults in found.items() if faults}


def test_there_is_a_house_to_look_at() -> None:
    assert len(under("drills")) > 15
    assert len(under("engine.kit")) > 8
    assert "drills.repetition" in MODULES


def test_drills_know_numpy_and_the_standard_library_and_nothing_of_the_engine() -> None:
    allowed = {"numpy", "drills"} | set(sys.stdlib_module_names)

    strangers = {
        name: {one for one in imports(name) if one.partition(".")[0] not in allowed}
        for name in under("drills")
    }

    assert wrong(strangers) == {}


def test_drills_have_no_clock_no_chance_of_their_own_and_no_disk() -> None:
    barred = {"time", "datetime", "random", "os", "pathlib", "io", "sqlite3", "subprocess"}

    imported = {name: barred & imports(name) for name in under("drills")}

    assert wrong(imported) == {}


def test_arrows_point_down_only() -> None:
    outside = {name: not_below(name) for name in MODULES if name != "engine.__main__"}

    assert wrong(outside) == {}


def test_no_two_rooms_import_each_other() -> None:
    below = {(one, other) for one, others in FLOORS.items() for other in others} | set(NEIGHBOURS)

    assert {(one, other) for one, other in below if (other, one) in below} == set()


def test_each_row_of_the_neighbours_is_needed() -> None:
    imported = {
        (room, room_of(one))
        for room, _ in NEIGHBOURS
        for name in under(f"engine.{room}")
        for one in imports(name)
    }

    assert NEIGHBOURS.keys() - imported == set()


def test_no_files_import_each_other_in_a_circle() -> None:
    circles = [name for name in MODULES if name in reached(name)]

    assert circles == []


def test_rules_and_history_need_no_window_and_no_device() -> None:
    rules = under("drills", "engine.practice", "engine.store", "engine.salvage")

    assert [name for name in rules if "pygame" in reached(name)] == []


def test_the_command_is_ready_before_pygame_is_imported() -> None:
    wanted = "{'pygame', 'engine.commands.main'}"
    look = f"import engine.commands.main, sys; print(sorted({wanted} & set(sys.modules)))"

    seen = subprocess.run(
        [sys.executable, "-c", look], cwd=ROOT, capture_output=True, text=True, check=True
    )

    assert seen.stdout == "['engine.commands.main']\n"


def test_every_file_says_what_it_is_and_is_short() -> None:
    silent, lengths = [], {}

    for path in [*CODE, *PACKAGING]:
        module = nodes(path)[0]
        if not isinstance(module, ast.Module) or not ast.get_docstring(module):
            silent.append(name_of(path))
        lengths[name_of(path)] = len(path.read_text(encoding="utf-8").splitlines())

    assert silent == []
    assert {name: lines for name, lines in lengths.items() if lines > LONGEST} == {}


def test_there_is_one_place_that_waits() -> None:
    waiting = [name for name, path in MODULES.items() if calls(path, "sleep")]

    assert waiting == ["engine.stage.polling"]


def unsized(path: Path) -> Iterator[str]:
    """Calls of a file whose whole numbers are as long as the system's: 32 bits on some."""
    for node in nodes(path):
        if not isinstance(node, ast.Call) or not isinstance(node.func, ast.Attribute):
            continue
        given = {keyword.arg: ast.unparse(keyword.value) for keyword in node.keywords}
        if node.func.attr == "astype":
            given["dtype"] = ast.unparse(node.args[0])
        counts = node.func.attr in ("arange", "cumsum") and "dtype" not in given
        if counts or given.get("dtype") in ("int", "np.int_", "np.intp"):
            yield f"line {node.lineno}: {ast.unparse(node)}"


def test_whole_numbers_are_as_long_on_every_system() -> None:
    found = {name: list(unsized(path)) for name, path in MODULES.items()}

    assert wrong(found) == {}


def types_in(value: Any) -> set[type]:
    """The types of a value and of all values in it."""
    inner = value.values() if isinstance(value, dict) else value if isinstance(value, list) else ()
    return {type(value)}.union(*map(types_in, inner))


def test_a_level_is_data_and_nothing_else() -> None:
    data = {dict, list, str, int, float, bool}

    others = {
        path.name: types_in(tomllib.loads(path.read_text(encoding="utf-8"))) - data
        for path in LEVELS
    }

    assert {path.suffix for path in LEVELS} == {".toml"}
    assert wrong(others) == {}
