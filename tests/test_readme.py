"""The README: short, its pictures there and small, its links right, every command in it."""

import re
import struct
import zlib
from collections.abc import Iterator
from pathlib import Path

import pytest

from engine.commands.table import COMMANDS

ROOT = Path(__file__).resolve().parents[1]
README = (ROOT / "README.md").read_text(encoding="utf-8")
PICTURES = re.findall(r"!\[(.*?)\]\((.*?)\)", README)
"""Words and file of each picture of the README."""
MOVING = ".github/pictures/blip.png"
"""The moving picture at the top."""
REPLAY = ".github/pictures/replay.png"
LESSON = ".github/pictures/lesson.png"
MOST_LINES = 200
MOST_BYTES = 1_500_000
"""Size of all pictures together, in bytes."""
MOST_BYTES_MOVING = 600_000
"""Size of a picture that moves, in bytes."""
WIDEST, TALLEST = 960, 540
"""Size of the largest picture, in pixels."""

needs_pictures = pytest.mark.skipif(
    not (ROOT / ".github").is_dir(), reason="the source archive carries no pictures"
)


def chunks(data: bytes) -> Iterator[tuple[bytes, bytes]]:
    """Name and data of each chunk of a PNG, each with the right checksum."""
    assert data.startswith(b"\x89PNG\r\n\x1a\n")
    place = 8
    while place < len(data):
        [length] = struct.unpack_from(">I", data, place)
        name, body = data[place + 4 : place + 8], data[place + 8 : place + 8 + length]
        [checksum] = struct.unpack_from(">I", data, place + 8 + length)
        assert checksum == zlib.crc32(name + body), name
        yield name, body
        place += 12 + length


def rows(tall: int, wide: int, data: bytes) -> None:
    """Nothing; fails unless pixels of one byte fill that many rows, each after its filter."""
    assert len(zlib.decompress(data)) == tall * (wide + 1)


def anchors(text: str) -> set[str]:
    """Anchors of the headings of a page, as hosts of repositories make them."""
    headings = re.findall(r"^#+ (.*)$", text, re.MULTILINE)
    return {re.sub(r"[^\w -]", "", heading.lower()).replace(" ", "-") for heading in headings}


def test_it_has_fewer_than_200_lines() -> None:
    assert len(README.splitlines()) < MOST_LINES


def test_it_names_every_command_and_points_to_its_help() -> None:
    assert [one.name for one in COMMANDS if f"`{one.name}`" not in README] == []
    assert "`stillfoot COMMAND --help`" in README


def test_the_moving_picture_and_both_commands_come_before_everything_else() -> None:
    order = [
        README.index(part)
        for part in (MOVING, ".venv/bin/stillfoot\n", "-m pytest\n", "## Before you start")
    ]

    assert order == sorted(order)


@pytest.mark.parametrize("page", ["README.md", "DEVELOPERS.md"])
def test_its_links_lead_to_headings_that_are_there(page: str) -> None:
    text = (ROOT / page).read_text(encoding="utf-8")
    links = re.findall(r"(?<!!)\[[^]]*\]\(([\w.]*)#([\w-]+)\)", text)

    pages = {name: (ROOT / (name or page)).read_text(encoding="utf-8") for name, _ in links}
    missing = [(name, anchor) for name, anchor in links if anchor not in anchors(pages[name])]

    assert links
    assert missing == []


def test_every_picture_is_described_in_words() -> None:
    assert len(PICTURES) >= 3
    assert [file for words, file in PICTURES if len(words.split()) < 5] == []


@needs_pictures
def test_every_picture_is_there_and_none_is_left_over() -> None:
    drawn = {path.relative_to(ROOT).as_posix() for path in (ROOT / ".github/pictures").iterdir()}

    assert drawn == {file for _, file in PICTURES}


@needs_pictures
@pytest.mark.parametrize("file", sorted({file for _, file in PICTURES}))
def test_a_picture_is_a_whole_png_of_the_size_allowed(file: str) -> None:
    found = list(chunks((ROOT / file).read_bytes()))

    width, height, depth, colours = struct.unpack(">IIBB", found[0][1][:10])
    assert [found[0][0], found[-1][0]] == [b"IHDR", b"IEND"]
    assert (depth, colours) == (8, 3)
    assert width <= WIDEST
    assert height <= TALLEST
    rows(height, width, b"".join(body for name, body in found if name == b"IDAT"))


@needs_pictures
def test_all_pictures_together_are_small() -> None:
    sizes = {file: (ROOT / file).stat().st_size for _, file in PICTURES}

    assert sum(sizes.values()) < MOST_BYTES
    assert max(sizes[file] for file in (MOVING, REPLAY, LESSON)) < MOST_BYTES_MOVING


@needs_pictures
@pytest.mark.parametrize(("file", "longest"), [(MOVING, 10.0), (REPLAY, 12.0), (LESSON, 7.0)])
def test_a_moving_picture_lasts_some_seconds_and_every_frame_lies_within_it(
    file: str, longest: float
) -> None:
    found = list(chunks((ROOT / file).read_bytes()))
    width, height = struct.unpack(">II", found[0][1][:8])
    [(count, repeats)] = [struct.unpack(">II", body) for name, body in found if name == b"acTL"]
    moves = [(name, body) for name, body in found if name in (b"fcTL", b"IDAT", b"fdAT")]
    shown = [struct.unpack(">IIIIIHHBB", body) for name, body in moves if name == b"fcTL"]
    numbered = [struct.unpack(">I", body[:4])[0] for name, body in moves if name != b"IDAT"]

    assert (len(shown), repeats) == (count, 0)
    assert numbered == list(range(len(numbered)))
    assert 6.0 <= sum(frame[5] / frame[6] for frame in shown) <= longest
    parts = [body[4:] if name == b"fdAT" else body for name, body in moves if name != b"fcTL"]
    for (_, wide, tall, left, top, *_), part in zip(shown, parts, strict=True):
        assert left + wide <= width
        assert top + tall <= height
        rows(tall, wide, part)
