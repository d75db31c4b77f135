"""Several players on one computer: a folder each, with names that every file system keeps apart."""

from pathlib import Path

import pytest

from engine.commands.main import main
from engine.commands.players import NAMELESS, folder_of, names, whose
from engine.store import open_history
from engine.store.history import FILE
from tests.engine.commands.command import output_of, refused

Captured = pytest.CaptureFixture[str]


def begin(folder: Path) -> None:
    """Make a data folder with a history in it."""
    open_history(folder, []).close()


def test_a_player_with_a_name_has_a_folder_of_their_own(tmp_path: Path, capsys: Captured) -> None:
    begin(tmp_path)
    begin(tmp_path / "players" / "Anna Zoë")
    with open_history(tmp_path, []) as history:
        history.keep_setting("whose", "nobody's")

    output_of(
        capsys, "--data", str(tmp_path), "backup", "--player", "Anna Zoë", str(tmp_path / "b")
    )
    output_of(capsys, "--data", str(tmp_path), "backup", str(tmp_path / "c"))

    named, nameless = ((tmp_path / name).read_bytes() for name in "bc")
    assert b"nobody's" in nameless
    assert b"nobody's" not in named


def test_the_option_may_stand_before_the_command_or_after_it(
    tmp_path: Path, capsys: Captured
) -> None:
    begin(tmp_path / "players" / "Anna")

    for arguments in (["--player", "Anna", "plan"], ["plan", "--player", "Anna"]):
        assert main(["--data", str(tmp_path), *arguments]) == 0
    capsys.readouterr()

    path = tmp_path / "players" / "Ben" / FILE
    missing = refused(capsys, "--data", str(tmp_path), "export", "--player", "Ben", "out")
    assert missing == f"stillfoot: {path}: expected a history, found none\n"


@pytest.mark.parametrize(
    "name",
    ["a/b", "a\\b", "c:d", "..", ".", ".a", "a.", 'a"b', "a|b", "a?", "a*", "<a", "a>"],
)
def test_a_name_with_a_separator_or_a_dot_at_its_ends_is_refused(
    name: str, tmp_path: Path, capsys: Captured
) -> None:
    error = refused(capsys, "--data", str(tmp_path), "plan", "--player", name)

    assert error == (
        "stillfoot: --player: expected a name without "
        f'" * / : < > ? \\ | or a dot at its ends, found {name!r} (see stillfoot plan --help)\n'
    )
    assert list(tmp_path.iterdir()) == []


@pytest.mark.parametrize("name", ["con", "NUL", "com1", "Lpt9.txt", "aux.a.b", "com¹"])
def test_a_name_that_windows_keeps_for_a_device_is_refused(name: str, capsys: Captured) -> None:
    error = refused(capsys, "plan", "--player", name)

    assert "expected a name that Windows does not reserve, found" in error


@pytest.mark.parametrize("name", ["", " a", "a ", "a" * 21, "a\nb", "\U0001f9b6"])
def test_a_name_that_home_cannot_show_is_refused(name: str, capsys: Captured) -> None:
    error = refused(capsys, "plan", "--player", name)

    assert "expected a name of 1 to 20 letters, without blanks at its ends, found" in error


def test_a_name_that_turns_the_direction_of_writing_is_refused(capsys: Captured) -> None:
    error = refused(capsys, "plan", "--player", "An\u202ean")

    assert "at its ends, found 'An\\u202ean'" in error


@pytest.mark.parametrize("name", ["anna", "ANNA"])
def test_a_name_that_differs_by_case_alone_is_refused(
    name: str, tmp_path: Path, capsys: Captured
) -> None:
    begin(tmp_path / "players" / "Anna")

    error = refused(capsys, "--data", str(tmp_path), "plan", "--player", name)

    assert error == f"stillfoot: --player: expected 'Anna', as before, found '{name}'\n"


def test_both_spellings_of_an_accent_are_one_name(tmp_path: Path, capsys: Captured) -> None:
    begin(tmp_path / "players" / "Zo\u00eb")

    assert main(["--data", str(tmp_path), "plan", "--player", "Zoe\u0308"]) == 0
    capsys.readouterr()


def test_a_file_in_the_place_of_the_players_is_named(tmp_path: Path, capsys: Captured) -> None:
    (tmp_path / "players").write_text("", encoding="utf-8")

    error = refused(capsys, "--data", str(tmp_path), "plan", "--player", "Anna")

    assert error.startswith(f"stillfoot: {tmp_path / 'players'}: expected a folder")


def test_the_demo_keeps_nothing_of_a_player_without_a_data_folder(capsys: Captured) -> None:
    error = refused(capsys, "demo", "--headless", "--player", "Anna")

    assert error == (
        "stillfoot: --player: expected with --data, as the demo saves nothing without it\n"
    )


def test_the_demo_is_kept_with_the_player_who_asked_for_it(
    tmp_path: Path, capsys: Captured
) -> None:
    arguments = ["--headless", "--reps", "1", "--player", "Anna", "--data", str(tmp_path)]

    output_of(capsys, "demo", *arguments)

    assert (tmp_path / "players" / "Anna" / FILE).exists()
    assert not (tmp_path / FILE).exists()


def test_home_says_whose_it_is_only_where_there_is_more_than_one(tmp_path: Path) -> None:
    assert whose(tmp_path, None) == ""
    assert whose(tmp_path, "Anna") == ""

    begin(tmp_path / "players" / "Anna")
    assert whose(tmp_path, "Anna") == ""
    assert whose(tmp_path, None) == NAMELESS

    begin(tmp_path)
    assert whose(tmp_path, "Anna") == "Anna"

    begin(tmp_path / "players" / "Ben")
    assert whose(tmp_path, "Ben") == "Ben"


def test_a_folder_spelled_in_other_characters_is_that_of_the_player(tmp_path: Path) -> None:
    composed, decomposed = "Zo\u00eb", "Zoe\u0308"
    other = tmp_path / "players" / decomposed
    other.mkdir(parents=True)
    assert names(tmp_path) == [composed]
    assert folder_of(tmp_path, composed).samefile(other)

    own = tmp_path / "players" / composed
    own.mkdir(exist_ok=True)

    assert folder_of(tmp_path, composed).samefile(own)
