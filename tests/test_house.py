"""The house: arrows point down only, and every file can be held in the head."""

import ast
import subprocess
import sys
import tomllib
from collections.abc import Iterator
from functools import cache
from pathlib import Path

import pytest

ROOT = Path(__file__).resolve().parents[1]
CODE = sorted([*(ROOT / "drills").rglob("*.py"), *(ROOT / "engine").rglob("*.py")])
LEVELS = sorted(path for path in (ROOT / "levels").rglob("*") if path.is_file())
LONGEST = 300
OURS = {"drills", "engine"}
FOUNDATION = ("drills", "engine.errors", "engine.console")
BELOW_DRILL = (
    *(*FOUNDATION, "engine.practice", "engine.pedals", "engine.store", "engine.stage"),
    "engine.kit",
)
BELOW_ROOMS = (*BELOW_DRILL, "engine.drill")
ROOMS = tuple(f"engine.{room}" for room in ("setup", "ladder", "five", "progress", "trial", "road"))
MAY_IMPORT = {
    "drills": (),
    "engine": (),
    "engine.__main__": ("engine.commands",),
    "engine.console": ("drills",),
    "engine.errors": ("drills",),
    "engine.practice": FOUNDATION,
    "engine.pedals": FOUNDATION,
    "engine.store": ("drills", "engine.practice"),
    "engine.stage": (*FOUNDATION, "engine.pedals", "engine.store"),
    "engine.kit": (*FOUNDATION, "engine.pedals", "engine.stage", "engine.trial.setups"),
    "engine.drill": (*BELOW_DRILL, "engine.ladder.ladder", "engine.setup.no_pedals"),
    "engine.setup": BELOW_ROOMS,
    "engine.ladder": BELOW_ROOMS,
    "engine.five": BELOW_ROOMS,
    "engine.progress": (*BELOW_ROOMS, "engine.five", "engine.ladder"),
    "engine.trial": (*BELOW_ROOMS, "engine.five", "engine.progress"),
    "engine.road": (*BELOW_ROOMS, "engine.progress"),
    "engine.game": (*BELOW_ROOMS, *ROOMS),
    "engine.commands": (*FOUNDATION, "engine"),
}
"""What each floor of the house may import beside itself."""


def name_of(path: Path) -> str:
    """The name of the module in a file."""
    parts = path.relative_to(ROOT).with_suffix("").parts
    return ".".join(parts[:-1] if parts[-1] == "__init__" else parts)


MODULES = {name_of(path): path for path in CODE}


@cache
def imports(name: str) -> frozenset[str]:
    """Every module that a module imports anywhere in it, of ours to the file."""
    return frozenset(_imports(name))


def _imports(name: str) -> Iterator[str]:
    for node in ast.walk(ast.parse(MODULES[name].read_text(encoding="utf-8"))):
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
    return [name for name in MODULES if any(f"{name}.".startswith(f"{one}.") for one in packages)]


def calls(path: Path, name: str) -> list[int]:
    """The lines of a file that name something."""
    tree = ast.parse(path.read_text(encoding="utf-8"))
    return [
        node.lineno
        for node in ast.walk(tree)
        if (isinstance(node, ast.Attribute) and node.attr == name)
        or (isinstance(node, ast.Name) and node.id == name)
        or (isinstance(node, ast.ImportFrom) and name in {alias.name for alias in node.names})
    ]


def test_there_is_a_house_to_look_at() -> None:
    assert len(under("drills")) > 15
    assert len(under("engine.kit")) > 8
    assert "drills.repetition" in MODULES


@pytest.mark.parametrize("name", under("drills"))
def test_drills_know_numpy_and_the_standard_library_and_nothing_of_the_engine(name: str) -> None:
    allowed = {"numpy", "drills"} | set(sys.stdlib_module_names)

    strangers = {one for one in imports(name) if one.partition(".")[0] not in allowed}

    assert strangers == set()


@pytest.mark.parametrize("name", under("drills"))
def test_drills_have_no_clock_no_chance_of_their_own_and_no_disk(name: str) -> None:
    barred = {"time", "datetime", "random", "os", "pathlib", "io", "sqlite3", "subprocess"}

    assert barred.isdisjoint(imports(name))


@pytest.mark.parametrize("name", sorted(MODULES))
def test_arrows_point_down_only(name: str) -> None:
    home = max((one for one in MAY_IMPORT if f"{name}.".startswith(f"{one}.")), key=len)
    below = {home, *MAY_IMPORT[home]}

    ours = {one for one in imports(name) if one.partition(".")[0] in OURS}

    assert {one for one in ours if not any(f"{one}.".startswith(f"{b}.") for b in below)} == set()


def test_no_two_floors_lean_on_each_other() -> None:
    leaning = {
        (one, other)
        for one, others in MAY_IMPORT.items()
        for other in others
        if one != other and one in MAY_IMPORT.get(other, ())
    }

    assert leaning == set()


@pytest.mark.parametrize("name", under("drills", "engine.practice", "engine.store"))
def test_rules_and_history_need_no_window_and_no_device(name: str) -> None:
    assert "pygame" not in reached(name)


def test_the_command_is_ready_before_pygame_is_imported() -> None:
    wanted = "{'pygame', 'engine.commands.main'}"
    look = f"import engine.commands.main, sys; print(sorted({wanted} & set(sys.modules)))"

    seen = subprocess.run(
        [sys.executable, "-c", look], cwd=ROOT, capture_output=True, text=True, check=True
    )

    assert seen.stdout == "['engine.commands.main']\n"


@pytest.mark.parametrize("path", CODE, ids=name_of)
def test_every_file_says_what_it_is_and_is_short(path: Path) -> None:
    text = path.read_text(encoding="utf-8")

    assert ast.get_docstring(ast.parse(text))
    assert len(text.splitlines()) <= LONGEST


@pytest.mark.parametrize("path", CODE, ids=name_of)
def test_there_is_one_place_that_waits(path: Path) -> None:
    waits = calls(path, "sleep")

    assert bool(waits) == (name_of(path) == "engine.stage.waiting")


@pytest.mark.parametrize("path", LEVELS, ids=lambda path: path.name)
def test_a_level_is_data_and_nothing_else(path: Path) -> None:
    values = [tomllib.loads(path.read_text(encoding="utf-8"))]
    kinds = set()

    while values:
        value = values.pop()
        kinds.add(type(value))
        values += value.values() if isinstance(value, dict) else []
        values += value if isinstance(value, list) else []

    assert path.suffix == ".toml"
    assert kinds <= {dict, list, str, int, float, bool}
