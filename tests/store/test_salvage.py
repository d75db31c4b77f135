"""Salvage of histories with one thing damaged: what is left and what is lost."""

import shutil
from io import BytesIO
from pathlib import Path

import pytest

from engine.salvage.blocks import readable
from engine.salvage.loss import Loss
from engine.salvage.salvage import salvage
from engine.store import StoreError, open_history
from engine.store.backup import journal_of
from engine.store.history import FILE
from engine.store.remeasure import remeasuring, stored_repetition
from engine.store.traces import trace_of
from tests.made import level
from tests.store.half_written import break_off
from tests.store.spoiled import ask, change, clear_page, root_of
from tests.stored import dump

HERE = Path(__file__).parent


def test_an_undamaged_history_is_carried_over_as_it_is(damaged: Path, target: Path) -> None:
    loss = salvage(damaged, target, [])

    assert loss == Loss()
    assert dump(target) == dump(damaged)


def test_a_history_of_version_1_is_salvaged_as_it_would_be_opened(target: Path) -> None:
    folder = target.parent / "opened"
    folder.mkdir()
    shutil.copy(HERE / "version1.sqlite3", folder / FILE)
    open_history(folder, [level(id="blip-1-first")]).close()

    loss = salvage(HERE / "version1.sqlite3", target, [level(id="blip-1-first")])

    assert loss == Loss()
    assert dump(target) == dump(folder / FILE)


@pytest.mark.parametrize("until", [100, 4096])
def test_a_history_of_version_1_without_its_schema_loses_nothing(target: Path, until: int) -> None:
    damaged = target.parent / "old.sqlite3"
    data = bytearray((HERE / "version1.sqlite3").read_bytes())
    data[:until] = bytes(until)
    damaged.write_bytes(data)

    loss = salvage(damaged, target, [])

    assert loss == Loss()
    assert len(ask(target, "SELECT id FROM repetition")) == 15
    assert ask(target, "SELECT count(*) FROM measure") == [(238,)]
    assert ask(target, "SELECT key FROM setting ORDER BY key") == [("rig",), ("sound",)]


def test_a_page_that_another_one_was_written_over_is_lost(damaged: Path, target: Path) -> None:
    data = bytearray(damaged.read_bytes())
    lost, other = root_of(damaged, "measure"), root_of(damaged, "setting")
    data[(lost - 1) * 1024 : lost * 1024] = data[(other - 1) * 1024 : other * 1024]
    damaged.write_bytes(data)

    salvage(damaged, target, [])

    assert ask(target, "SELECT count(*) FROM measure") == [(0,)]
    assert ask(target, "SELECT definition FROM repetition WHERE id = 1") == [(0,)]


def test_what_a_crash_broke_off_is_undone(damaged: Path, target: Path) -> None:
    before = dump(damaged)
    break_off(damaged)
    content = damaged.read_bytes(), journal_of(damaged).read_bytes()

    loss = salvage(damaged, target, [])

    assert loss == Loss()
    assert dump(target) == before
    assert (damaged.read_bytes(), journal_of(damaged).read_bytes()) == content


def test_a_lost_schema_page_loses_nothing(damaged: Path, target: Path) -> None:
    before = dump(damaged)
    damaged.write_bytes(bytes(1024) + damaged.read_bytes()[1024:])

    loss = salvage(damaged, target, [])

    assert loss == Loss()
    assert dump(target) == before


def test_a_trace_that_cannot_be_unpacked_is_left_out(damaged: Path, target: Path) -> None:
    change(damaged, "UPDATE trace SET packed = substr(packed, 1, 40) WHERE repetition = 3")

    loss = salvage(damaged, target, [])

    assert loss == Loss(traces=1)
    assert ask(target, "SELECT id FROM repetition WHERE fixed = 1") == [(3,)]
    with open_history(target.parent, []) as history:
        assert trace_of(history, 3) is None
        assert trace_of(history, 4) is not None
        assert remeasuring(history) is None


def test_a_lost_calibration_loses_only_the_traces_that_need_it(damaged: Path, target: Path) -> None:
    change(damaged, "UPDATE calibration SET ends = '[[0' WHERE id = 2")

    loss = salvage(damaged, target, [])

    assert loss == Loss(traces=1)
    assert ask(target, "SELECT repetition FROM trace") == [(n,) for n in (1, 3, 4, 5, 7, 9)]


def test_lost_measures_are_computed_again_from_the_trace(damaged: Path, target: Path) -> None:
    change(damaged, "UPDATE repetition SET fixed = 0")
    clear_page(damaged, "measure")

    loss = salvage(damaged, target, [])

    assert (loss.repetitions, loss.traces) == (0, 0)
    assert ask(target, "SELECT count(*) FROM measure") == [(0,)]
    with open_history(target.parent, []) as history:
        under_way = remeasuring(history)
        assert under_way is not None
        assert under_way.of == 7
        stored = stored_repetition(history, 1)
    assert stored is not None
    assert stored.definition == 0


def test_measures_without_a_trace_are_lost_for_good(damaged: Path, target: Path) -> None:
    change(
        damaged,
        "DELETE FROM trace WHERE repetition = 1",
        "UPDATE repetition SET rate = NULL WHERE id = 1",
    )
    clear_page(damaged, "measure")

    loss = salvage(damaged, target, [])

    assert loss.measures >= 1
    assert ask(target, "SELECT definition > 0 FROM repetition WHERE id = 1") == [(1,)]


def test_a_measure_that_nobody_knows_is_computed_again(damaged: Path, target: Path) -> None:
    change(
        damaged,
        "UPDATE repetition SET fixed = 0",
        "UPDATE measure_name SET name = 'rebo0nd' WHERE name = 'rebound'",
    )

    salvage(damaged, target, [])

    assert ask(target, "SELECT count(*) FROM measure_name WHERE name = 'rebo0nd'") == [(0,)]
    assert ask(target, "SELECT definition FROM repetition WHERE id = 1") == [(0,)]


def test_figures_and_guesses_without_their_names_are_lost(damaged: Path, target: Path) -> None:
    change(
        damaged,
        "DELETE FROM trace WHERE repetition = 1",
        "UPDATE repetition SET rate = NULL WHERE id = 1",
        "DELETE FROM measure WHERE repetition > 1",
        "UPDATE measure_name SET name = 'x' || id",
    )

    loss = salvage(damaged, target, [])

    assert loss == Loss(measures=1, others={"guesses": 1})


def test_a_drive_without_its_blips_is_lost(damaged: Path, target: Path) -> None:
    clear_page(damaged, "drive_blip")

    loss = salvage(damaged, target, [])

    assert loss == Loss(others={"drives": 1})


def test_a_signal_while_a_copy_is_checked_ends_the_salvage(
    damaged: Path, backup: Path, target: Path, tmp_path: Path
) -> None:
    class SignalledError(BaseException):
        """What the handler of a signal raises."""

    copy = Path(shutil.copy(backup, tmp_path / "copy.sqlite3"))
    numbers = "WITH RECURSIVE n (i) AS (SELECT 100 UNION ALL SELECT i + 1 FROM n LIMIT 20000)"
    change(copy, f"{numbers} INSERT INTO rig SELECT i, '', '', '{{}}', 0 FROM n")
    change(damaged, "UPDATE repetition SET why = 'x' WHERE id = 5")
    checked = target.with_name(f"{FILE}.part.copy.part")
    calls = 0

    def tell() -> None:
        nonlocal calls
        calls += checked.exists()
        if calls == 3:
            raise SignalledError

    with pytest.raises((SignalledError, StoreError)):
        salvage(damaged, target, [], [copy], tell)

    assert list(target.parent.iterdir()) == []


def test_a_disk_that_gives_no_more_costs_only_its_sectors() -> None:
    class Failing(BytesIO):
        """A file of which one sector cannot be read."""

        def read(self, length: int | None = -1, /) -> bytes:
            start = self.tell()
            if length is None or length < 0 or (start < 2048 + 512 and start + length > 2048):
                raise OSError(5, "Input/output error")
            return super().read(length)

    found = readable(Failing(b"x" * 8192), 0, 8192)

    assert found == b"x" * 2048 + bytes(512) + b"x" * (8192 - 2560)


def test_a_file_that_is_not_there_is_said_in_one_line(tmp_path: Path, target: Path) -> None:
    missing = tmp_path / "missing.sqlite3"

    with pytest.raises(StoreError) as refused:
        salvage(missing, target, [])

    assert str(refused.value) == (
        f"{missing}: expected a file to read, found: No such file or directory"
    )
    assert list(target.parent.iterdir()) == []
