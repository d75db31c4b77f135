"""A damaged history, at the start and in play: repaired in the window, and nothing held is lost."""

import sqlite3
from collections.abc import Callable, Sequence
from contextlib import closing
from pathlib import Path

import pytest

from engine.game.damage import Repaired
from engine.salvage.repair import repair
from engine.salvage.words import words_of
from engine.store import StoreError, open_history
from engine.store.error import DamagedError
from engine.store.history import FILE
from engine.store.lock import LOCK
from engine.store.repetitions import add_repetition
from tests.engine.drill.sets import DATE
from tests.engine.game.asides import CLOSE, Aside, Game, after, looks
from tests.engine.game.test_trouble import passing
from tests.engine.kit.test_choices import shown
from tests.engine.walking import Step
from tests.made import record
from tests.stored import all_results

LOST = ["3 repetitions cannot be read."]


def damage(folder: Path) -> None:
    """Overwrite the history with something else."""
    (folder / FILE).write_bytes(b"damaged\n" * 200)


def repairing(folder: Path, *errors: str) -> Callable[[], Sequence[str]]:
    """Repair that fails with each error in turn, and then puts a history of one repetition."""
    ahead = list(errors)

    def repair() -> Sequence[str]:
        if ahead:
            raise StoreError(ahead.pop(0))
        (folder / FILE).unlink()
        with open_history(folder, []) as history:
            add_repetition(history, record())
        return LOST

    return repair


@pytest.fixture
def damaged(tmp_path: Path) -> Path:
    """Data folder with a damaged history."""
    open_history(tmp_path, []).close()
    damage(tmp_path)
    return tmp_path


def test_a_history_damaged_from_the_start_is_repaired_and_the_game_starts_at_home(
    damaged: Path,
) -> None:
    aside = Aside(("damaged", looks), ("repaired", "Go on"))
    with Game(damaged, aside, repairing(damaged)) as game:
        game.play("on", "on")

        assert game.count == 3

    found = f"{damaged / FILE}: expected a whole history, found another kind of file"
    assert game.told == [found, *LOST]
    assert aside.shown[0].details() == {"error": found}
    assert aside.shown[1].details()["told"] == LOST
    assert game.starts == [False]


def test_a_repetition_that_found_the_history_damaged_is_kept_in_the_repaired_one(
    tmp_path: Path,
) -> None:
    aside = Aside(("damaged", looks), ("repaired", "Go on"))
    with Game(tmp_path, aside, repairing(tmp_path)) as game:
        game.play(passing(lambda: damage(tmp_path)), "on", "on")

        assert game.count == 1 + 1 + 2

    assert game.told[1:] == [*LOST, "One repetition that waited is saved."]
    assert game.starts == [True, False]


def test_a_repair_that_fails_is_tried_again(damaged: Path) -> None:
    steps: list[tuple[str, Step]] = [("damaged", looks), ("not repaired", "Try again")] * 2
    aside = Aside(*steps, ("damaged", looks), ("repaired", "Go on"))
    with Game(damaged, aside, repairing(damaged, "no room", "no right")) as game:
        game.play("on", "on")

    assert [screen.details().get("error") for screen in aside.shown[1:4:2]] == [
        "no room",
        "no right",
    ]


def test_what_was_lost_is_told_though_the_repaired_history_opens_only_later(
    damaged: Path,
) -> None:
    mend, ahead = repairing(damaged), [LOST, []]

    def repair() -> Sequence[str]:
        told = ahead.pop(0)
        if told:
            mend()
            other.execute("BEGIN EXCLUSIVE")
        return told

    with closing(sqlite3.connect(damaged / LOCK, isolation_level=None)) as other:
        unlock = after(lambda: other.execute("ROLLBACK"))
        aside = Aside(
            ("damaged", looks), ("not repaired", unlock), ("damaged", looks), ("repaired", "Go on")
        )
        with Game(damaged, aside, repair) as game:
            game.play("on", "on")

    assert game.told[1:] == LOST


def test_leaving_a_repair_that_failed_ends_with_its_error_and_changes_nothing(
    damaged: Path,
) -> None:
    before = (damaged / FILE).read_bytes()
    aside = Aside(("damaged", looks), ("not repaired", "Leave"))

    with (
        Game(damaged, aside, repairing(damaged, "no room")) as game,
        pytest.raises(StoreError, match=r"\Ano room\Z"),
    ):
        game.play()

    assert (damaged / FILE).read_bytes() == before


def test_a_window_closed_before_the_repair_leaves_the_damaged_file_as_it_is(damaged: Path) -> None:
    before = (damaged / FILE).read_bytes()
    with Game(damaged, Aside(("damaged", CLOSE)), repairing(damaged)) as game:
        game.play()

        assert game.opened.history is None

    assert (damaged / FILE).read_bytes() == before


def test_a_window_closed_before_the_repair_keeps_the_repetition_that_waits(tmp_path: Path) -> None:
    aside = Aside(("damaged", CLOSE))
    with Game(tmp_path, aside, repairing(tmp_path)) as game:
        game.play(passing(lambda: damage(tmp_path)), "on", "on")

    with open_history(tmp_path, []) as found:
        assert len(all_results(found)) >= 1 + 1


def test_damage_that_a_repair_did_not_mend_is_not_repaired_over_and_over(tmp_path: Path) -> None:
    aside = Aside(("damaged", looks), ("repaired", "Go on"), ("not repaired", "Leave"))
    with Game(tmp_path, aside, repairing(tmp_path)) as game:
        game.errors = [DamagedError("a row that nobody can read") for _ in range(2)]

        with pytest.raises(DamagedError, match="a row that nobody can read"):
            game.play()


def broken(folder: Path) -> None:
    """Fill the first page of the streak of clean repetitions with zeros, as a failing disk may.

    The ledger is made from the repetitions, so nothing of it is lost.
    """
    path = folder / FILE
    with closing(sqlite3.connect(path)) as db:
        size = db.execute("PRAGMA page_size").fetchone()[0]
        found = db.execute("SELECT rootpage FROM sqlite_master WHERE name = 'clean_row'")
        first = found.fetchone()[0] - 1
        # Other programs look for news once a file has changed.
        db.execute("INSERT INTO setting VALUES ('changed', '1')")
        db.commit()
    content = bytearray(path.read_bytes())
    content[first * size : (first + 1) * size] = bytes(size)
    with path.open("rb+") as file:
        file.write(content)


def test_a_page_that_is_lost_in_play_costs_nothing_and_the_damaged_file_is_set_aside(
    tmp_path: Path,
) -> None:
    def really() -> list[str]:
        return words_of(repair(tmp_path, [], today=DATE.date()))

    aside = Aside(("damaged", looks), ("repaired", "Go on"))
    with Game(tmp_path, aside, really) as game:
        game.play(passing(lambda: broken(tmp_path)), "on", "on")

        assert game.count == 1 + 1 + 2

    name = "history-damaged-2024-05-17.sqlite3"
    assert game.told == [
        f"{tmp_path / FILE}: expected a whole history, found damaged pages",
        "Nothing is lost.",
        f"The damaged file is now {name}.",
        f"What could be read is in {FILE}.",
        "One repetition that waited is saved.",
    ]
    assert (tmp_path / name).exists()
    assert game.starts == [True, False]


def test_a_history_of_which_nothing_is_left_is_not_called_repaired() -> None:
    screen = Repaired(["Nothing in the history can be read.", f"A new history begins in {FILE}."])

    texts = [text.text for text in shown(screen, (1280, 720)).texts]

    assert "The history was damaged" in texts
    assert not any("repaired" in text for text in texts)
