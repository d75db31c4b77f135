"""Every text that a player can read, found in the source: code, levels and headings of the README.

A string of the code counts as a text where it reads like one: it has words, and stands in no place
that only the program reads, such as a docstring, a key, a statement of SQL or a pattern.
"""

import ast
import re
import tomllib
from collections.abc import Iterator
from dataclasses import dataclass
from pathlib import Path

ROOT = Path(__file__).resolve().parents[1]
FOR_THE_PROGRAM = {
    *("compile", "match", "search", "fullmatch", "sub", "finditer", "findall", "getattr"),
    *("hasattr", "setattr", "TypeVar", "NewType", "execute", "executemany", "executescript"),
    *("import_module", "encode", "decode", "AssertionError", "read_text", "write_text", "fdopen"),
    *("strptime", "strftime", "startswith", "endswith", "with_suffix", "ProcessLookupError"),
}
"""Functions whose strings no player reads."""
KEYS_OF_CALLS = {"dest", "action", "metavar", "prog", "encoding", "newline", "errors", "mode"}
"""Named arguments whose strings no player reads."""
SQL = re.compile(
    r"^\s*(SELECT|INSERT|UPDATE|DELETE|CREATE|ALTER|DROP|PRAGMA|BEGIN|WITH|FROM|WHERE|JOIN|AND|CASE"
    r"|WHEN|LEFT JOIN|ORDER BY|GROUP BY|REPLACE|ATTACH|ROLLBACK|COMMIT)\b|\bSELECT\b|\bAND NOT\b"
    r"|\b(NOT )?IN \(|\b(IS NOT NULL|NOT IN|AS BLOB|BETWEEN|JOIN|WHERE TRUE|ORDER BY id)\b"
)
"""Statement of SQL, or a part of one."""
WORD = re.compile(r"[^\W\d_]{2,}")
"""Word in a text: two letters or more."""
IDENTIFIER = re.compile(r"[a-z0-9_./\\:*\[\]{}%<>=#&;|+-]*|[A-Z0-9_]+|[A-Z]\w*Error")
"""String without a space that is a name for the program, not a word for a person."""
WORD_FILE = re.compile(r"(^|_)words\.py$")
"""Name of a file that holds the words of its room: there a single word counts as a text too."""


@dataclass(frozen=True)
class Text:
    """A text that a player can read."""

    room: str
    """Room of its file, such as "engine/five", "levels" or "README"."""
    file: str
    """File from the root of the repository."""
    line: int
    """Line of the file that it begins in, from 1."""
    text: str
    """What it says; what is filled in stands in braces."""


def player_texts() -> Iterator[Text]:
    """Every text, room by room and file by file, in order of lines."""
    for folder in ("drills", "engine"):
        for path in sorted((ROOT / folder).rglob("*.py")):
            yield from texts_of_code(path.relative_to(ROOT).as_posix(), _read(path))
    for path in sorted((ROOT / "levels").rglob("*.toml")):
        yield from _texts_of_level(path)
    for number, line in enumerate(_read(ROOT / "README.md").splitlines(), start=1):
        if line.startswith("#"):
            yield Text("README", "README.md", number, line.lstrip("# "))


def texts_of_code(file: str, source: str) -> Iterator[Text]:
    """Texts of one file of the code, given by its path from the root and its source."""
    found: list[Text] = []
    _Reader(file, found).visit(ast.parse(source))
    yield from sorted(found, key=lambda text: text.line)


def room_of(file: str) -> str:
    """Room of a file of the code: its folder in `engine`, or `drills` with all its folders."""
    parts = file.split("/")
    return "/".join(parts[:2]) if parts[0] == "engine" and len(parts) > 2 else parts[0]


class _Reader(ast.NodeVisitor):
    """Collects the texts of one file."""

    def __init__(self, file: str, found: list[Text]) -> None:
        self.file, self.found = file, found

    def visit_Expr(self, node: ast.Expr) -> None:
        if not isinstance(node.value, ast.Constant):
            self.generic_visit(node)

    def visit_Constant(self, node: ast.Constant) -> None:
        if isinstance(node.value, str):
            self._add(node, node.value)

    def visit_JoinedStr(self, node: ast.JoinedStr) -> None:
        self._add(node, "".join(_piece(part) for part in node.values))
        for part in node.values:
            if isinstance(part, ast.FormattedValue):
                self.visit(part.value)

    def visit_Call(self, node: ast.Call) -> None:
        self.visit(node.func)
        if ast.unparse(node.func).rpartition(".")[2] in FOR_THE_PROGRAM:
            return
        for argument in node.args:
            self.visit(argument)
        for keyword in node.keywords:
            if keyword.arg not in KEYS_OF_CALLS:
                self.visit(keyword.value)

    def visit_Subscript(self, node: ast.Subscript) -> None:
        self.visit(node.value)

    def visit_Compare(self, node: ast.Compare) -> None:
        for part in (node.left, *node.comparators):
            if not isinstance(part, ast.Constant):
                self.visit(part)

    def visit_Dict(self, node: ast.Dict) -> None:
        for value in node.values:
            self.visit(value)

    def visit_AnnAssign(self, node: ast.AnnAssign) -> None:
        if node.value is not None:
            self.visit(node.value)

    def visit_arg(self, node: ast.arg) -> None:
        return

    def visit_match_case(self, node: ast.match_case) -> None:
        for statement in node.body:
            self.visit(statement)

    def _add(self, node: ast.expr, text: str) -> None:
        if _reads_like_text(text, self.file):
            self.found.append(Text(room_of(self.file), self.file, node.lineno, text.strip()))


def _piece(part: ast.expr) -> str:
    """Piece of a formatted string: its words, or what is filled in, in braces."""
    if isinstance(part, ast.FormattedValue):
        return f"{{{ast.unparse(part.value)}}}"
    return str(part.value) if isinstance(part, ast.Constant) else ""


def _reads_like_text(text: str, file: str) -> bool:
    said = re.sub(r"\{[^}]*\}", "", text)
    if not WORD.search(said) or SQL.search(text):
        return False
    if " " in text.strip():
        return True
    if WORD_FILE.search(file):
        return not re.fullmatch(r"\w*_\w*", text)
    return not IDENTIFIER.fullmatch(said)


def _texts_of_level(path: Path) -> Iterator[Text]:
    """Title and purpose of a level."""
    source = _read(path)
    level = tomllib.loads(source)
    file = path.relative_to(ROOT).as_posix()
    for key in ("title", "purpose"):
        line = next(n for n, one in enumerate(source.splitlines(), 1) if one.startswith(key))
        yield Text("levels", file, line, str(level[key]))


def _read(path: Path) -> str:
    return path.read_text(encoding="utf-8")
