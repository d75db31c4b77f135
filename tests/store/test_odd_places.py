"""Commands on files in places with odd or long names, and on files that are open elsewhere."""

from collections.abc import Callable, Iterator
from pathlib import Path

import pytest

from engine.commands.main import main
from engine.store import open_history
from engine.store.history import FILE
from tests.engine.commands.command import Captured, output_of
from tests.store.copies import backed_up
from tests.store.whole import make, names
from tests.stored import dump

PLACES = {
    "a user's name": "Jörg Müller's Übungen (2)",
    "a long path": "/".join(["a-folder-within-a-folder"] * 9),
}
"""Names of folders by what is odd about them; the long one makes a path of over 200 characters."""


@pytest.fixture(params=PLACES)
def place(request: pytest.FixtureRequest, tmp_path: Path) -> Path:
    """A new folder with an odd name."""
    folder = tmp_path / PLACES[request.param]
    folder.mkdir(parents=True)
    return folder


def test_a_history_is_made_copied_and_told_in_any_folder(capsys: Captured, place: Path) -> None:
    data, again, page = place / "data", place / "again", place / "page.html"
    output_of(capsys, "demo", "--headless", "--reps", "2", "--data", str(data))
    make(data)

    output_of(capsys, "backup", str(place / "mine"), "--data", str(data))
    restored = output_of(capsys, "restore", str(place / "mine"), "--data", str(again))
    output_of(capsys, "export", str(place / "csv"), "--traces", "--data", str(data))
    told = output_of(capsys, "report", "--html", str(page), "--data", str(data))

    assert str(again / FILE) in restored
    assert dump(again / FILE) == dump(data / FILE)
    assert (place / "csv" / "repetition.csv").read_bytes().count(b"\r\n") > 2
    assert str(page) in told
    assert "</html>" in page.read_text(encoding="utf-8")


@pytest.fixture
def held() -> Iterator[Callable[[Path], None]]:
    """Open a file as another program does that reads it, and keep it open until the test ends."""
    files = []

    def hold(path: Path) -> None:
        files.append(path.open("rb"))

    yield hold
    for file in files:
        file.close()


def done_or_refused(capsys: Captured, file: Path, *arguments: str) -> bool:
    """Whether a command wrote a file; where it did not, it says so in one line and leaves it."""
    before, there = file.read_bytes(), names(file.parent)
    code = main(arguments)
    error = capsys.readouterr().err
    if code == 0:
        return True
    assert (code, error.count("\n")) == (2, 1)
    assert str(file) in error
    assert file.read_bytes() == before
    assert names(file.parent) == there
    return False


def test_a_report_over_one_that_is_open_is_written_or_refused(
    capsys: Captured, data: Path, tmp_path: Path, held: Callable[[Path], None]
) -> None:
    page = tmp_path / "page.html"
    page.write_bytes(b"the report of yesterday")
    held(page)

    done = done_or_refused(capsys, page, "report", "--html", str(page), "--data", str(data))

    assert (b"</html>" in page.read_bytes()) is done


def test_a_restore_over_a_history_that_is_open_is_done_or_refused(
    capsys: Captured, backup: Path, tmp_path: Path, held: Callable[[Path], None]
) -> None:
    folder = tmp_path / "data"
    with open_history(folder, []) as history:
        history.keep_setting("sound", False)
    held(folder / FILE)

    done = done_or_refused(capsys, folder / FILE, "restore", str(backup), "--data", str(folder))

    assert (dump(folder / FILE) == dump(backup)) is done


def test_a_history_that_is_open_elsewhere_can_be_backed_up(
    data: Path, tmp_path: Path, held: Callable[[Path], None]
) -> None:
    held(data / FILE)

    file = backed_up(data, tmp_path / "mine")

    assert dump(file) == dump(data / FILE)
