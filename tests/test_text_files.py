"""Every text file is opened with its encoding, and written with its line ends, on every system."""

import ast
from collections.abc import Iterator
from pathlib import Path

import pytest

ROOT = Path(__file__).resolve().parents[1]
CODE = sorted([*(ROOT / "drills").rglob("*.py"), *(ROOT / "engine").rglob("*.py")])
OPENS = {"open", "fdopen", "TextIOWrapper", "NamedTemporaryFile", "read_text", "write_text"}
"""Names of the calls that may open a file for text."""


def openings(source: str) -> Iterator[tuple[str, set[str]]]:
    """Each call that opens a file for text: its source, and what it leaves to the system."""
    for node in ast.walk(ast.parse(source)):
        if isinstance(node, ast.Call) and ast.unparse(node.func) != "os.open":
            name = ast.unparse(node.func).rpartition(".")[2]
            mode = mode_of(node)
            if name in OPENS and "b" not in mode:
                reads = name == "read_text" or (name == "open" and mode.isdisjoint("wax+"))
                needed = {"encoding"} if reads else {"encoding", "newline"}
                yield ast.unparse(node), needed - {keyword.arg for keyword in node.keywords}


def mode_of(call: ast.Call) -> set[str]:
    """The letters of the modes among the values that a call is given."""
    given = [*call.args, *(keyword.value for keyword in call.keywords)]
    texts = [one.value for one in given if isinstance(one, ast.Constant)]
    modes = [one for one in texts if isinstance(one, str) and set(one) <= set("rwaxbt+")]
    return set("".join(modes))


def test_what_a_text_file_holds_does_not_depend_on_the_system() -> None:
    lacking = {
        (path.relative_to(ROOT).as_posix(), call): lacks
        for path in CODE
        for call, lacks in openings(path.read_text(encoding="utf-8"))
        if lacks
    }

    assert lacking == {}


@pytest.mark.parametrize(
    ("source", "lacks"),
    [
        ("path.open()", {"encoding"}),
        ("path.open('a', encoding='utf-8')", {"newline"}),
        ("open(path, 'w')", {"encoding", "newline"}),
        ("path.write_text(text)", {"encoding", "newline"}),
        ("path.read_text()", {"encoding"}),
        ("io.TextIOWrapper(packed, encoding='utf-8')", {"newline"}),
        ("path.open('x', encoding='utf-8', newline='')", set()),
    ],
)
def test_an_opening_that_leaves_something_to_the_system_is_found(
    source: str, lacks: set[str]
) -> None:
    assert [found for _, found in openings(source)] == [lacks]


@pytest.mark.parametrize("source", ["path.open('rb')", "os.open(path, 1)", "path.read_bytes()"])
def test_an_opening_for_bytes_is_left_alone(source: str) -> None:
    assert list(openings(source)) == []
