"""Reading an export: into a folder without a history, whole or not at all."""

import shutil
from collections.abc import Callable, Generator, Iterable
from pathlib import Path
from typing import Any

import pytest

from engine.store import StoreError
from engine.store.csv_in import import_history
from engine.store.history import FILE
from tests.store.exported import failing, names, read_back, silent


def test_a_history_that_is_there_is_not_read_over(
    data: Path, exported: Path, tmp_path: Path
) -> None:
    shutil.copytree(data, tmp_path / "data")
    before = (tmp_path / "data" / FILE).read_bytes()

    with pytest.raises(StoreError) as refused:
        read_back(tmp_path / "data", exported)

    assert str(refused.value) == (
        f"{tmp_path / 'data' / FILE}: expected no history yet, found one; "
        "name another data folder with --data"
    )
    assert (tmp_path / "data" / FILE).read_bytes() == before


def test_a_history_that_comes_while_another_is_read_is_not_read_over(
    exported: Path, tmp_path: Path
) -> None:
    def spread(work: Callable[[Any], Any], jobs: Iterable[Any]) -> Generator[Any, None, None]:
        (tmp_path / FILE).write_bytes(b"of another program")
        yield from map(work, jobs)

    with pytest.raises(StoreError) as refused:
        import_history(tmp_path, exported, lambda _: spread, silent)

    assert str(refused.value) == (
        f"{tmp_path / FILE}: expected no history yet, found one; "
        "name another data folder with --data"
    )
    assert names(tmp_path) == [FILE]
    assert (tmp_path / FILE).read_bytes() == b"of another program"


def test_levels_of_ones_own_may_be_there_before_the_history(exported: Path, tmp_path: Path) -> None:
    (tmp_path / "data" / "levels").mkdir(parents=True)

    read_back(tmp_path / "data", exported)

    assert names(tmp_path / "data") == [FILE, "levels"]


def test_reading_that_is_stopped_leaves_nothing(exported: Path, tmp_path: Path) -> None:
    with pytest.raises(KeyboardInterrupt):
        import_history(tmp_path / "a" / "b", exported, failing(KeyboardInterrupt()), silent)

    assert names(tmp_path) == []


def test_what_an_interrupted_reading_left_is_in_nobodys_way(exported: Path, tmp_path: Path) -> None:
    (tmp_path / f"{FILE}.part").write_bytes(b"half")

    read_back(tmp_path, exported)

    assert names(tmp_path) == [FILE]
