"""Temporary folders: they are gone afterwards, and a place where none can be made is said."""

from pathlib import Path

import pytest

from engine.store import StoreError
from engine.store.temporary import temporary_folder


def test_a_temporary_folder_is_gone_with_all_that_is_in_it(tmp_path: Path) -> None:
    with temporary_folder(tmp_path) as folder:
        (folder / "file").touch()

    assert list(tmp_path.iterdir()) == []


def test_a_place_where_no_folder_can_be_made_is_said_in_one_line(tmp_path: Path) -> None:
    with (
        pytest.raises(StoreError) as refused,
        temporary_folder(tmp_path / "missing"),
    ):
        raise AssertionError("a folder was made")

    assert str(refused.value) == (
        "temporary folder: expected a place to make one, found: No such file or directory"
    )
