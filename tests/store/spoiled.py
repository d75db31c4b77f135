"""Histories that are changed past the program, and asked past it."""

import sqlite3
from contextlib import closing
from pathlib import Path


def change(file: Path, *statements: str) -> None:
    """Change a history file past the program."""
    with closing(sqlite3.connect(file)) as db, db:
        for statement in statements:
            db.execute(statement)


def ask(file: Path, statement: str) -> list[tuple[object, ...]]:
    """What a history answers to a statement."""
    with closing(sqlite3.connect(file)) as db:
        return db.execute(statement).fetchall()


def overwrite(file: Path, old: bytes, new: bytes) -> None:
    """Replace bytes that are once in a file by as many others."""
    data = file.read_bytes()
    assert data.count(old) == 1
    assert len(old) == len(new)
    file.write_bytes(data.replace(old, new))


def root_of(file: Path, table: str) -> int:
    """Number of the first page of a table."""
    [(root,)] = ask(file, f"SELECT rootpage FROM sqlite_master WHERE name = '{table}'")
    assert isinstance(root, int)
    return root


def clear_page(file: Path, table: str) -> None:
    """Zero the first page of a table."""
    root = root_of(file, table)
    data = bytearray(file.read_bytes())
    data[(root - 1) * 1024 : root * 1024] = bytes(1024)
    file.write_bytes(data)
