"""What is in a history, as tests look at it: things that the program itself never asks for."""

import sqlite3
from collections.abc import Iterable, Iterator
from contextlib import closing, contextmanager
from dataclasses import fields
from pathlib import Path

from drills.measures.sampling import Sampling
from engine.practice.results import Result
from engine.store import History, ledger
from engine.store.migrate import fill_ledger, migrate
from engine.store.repetitions import read_results


def all_results(history: History) -> list[Result]:
    """Every repetition, oldest first."""
    with history.reading() as db:
        return list(read_results(db))


def rebuild_ledger(history: History) -> None:
    """Make the ledger from every repetition."""
    rebuild_from(history, all_results(history))


def sampling_of(history: History, number: int) -> Sampling:
    """How well a repetition was sampled."""
    names = ", ".join(field.name for field in fields(Sampling))
    with history.reading() as db:
        found = db.execute(f"SELECT {names} FROM repetition WHERE id = ?", (number,)).fetchone()
        return Sampling(*found)


def dump(file: Path) -> list[str]:
    """Everything in a history file, packed traces and the ledger included, and its version."""
    with closing(sqlite3.connect(file)) as db:
        return [*db.iterdump(), str(db.execute("PRAGMA user_version").fetchone())]


@contextmanager
def in_memory() -> Iterator[History]:
    """A new history that is in no file."""
    with closing(sqlite3.connect(":memory:", isolation_level=None)) as db:
        migrate(db, finish=fill_ledger)
        yield History(Path(), db, db)


def enter(history: History, *results: Result) -> None:
    """Enter repetitions in the ledger alone."""

    def add(db: sqlite3.Connection) -> None:
        for result in results:
            ledger.enter(db, result)

    history.write(add)


def rebuild_from(history: History, results: Iterable[Result]) -> None:
    """Make the ledger from these repetitions."""
    history.write(lambda db: ledger.rebuild(db, results))
