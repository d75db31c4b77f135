"""The encoder of the README's pictures: what it writes is what was drawn, and always the same."""

import io
import runpy
import struct
import zlib
from pathlib import Path
from typing import Any

import numpy as np
import pygame
import pytest

FOLDER = Path(__file__).resolve().parents[1] / ".github"

pytestmark = pytest.mark.skipif(
    not FOLDER.is_dir(), reason="the source archive carries no pictures, nor what draws them"
)

DARK, LIGHT = (14, 16, 19), (230, 159, 0)


@pytest.fixture(scope="module")
def png() -> dict[str, Any]:
    """What the file of the encoder defines."""
    return runpy.run_path(str(FOLDER / "moving_png.py"))


def plain(colour: tuple[int, int, int]) -> Any:
    """Picture of one colour, 6 pixels wide and 4 high."""
    return np.full((4, 6, 3), colour, np.uint8)


def chunks(data: bytes, name: bytes) -> list[bytes]:
    """Data of the chunks of a name."""
    found, place = [], 8
    while place < len(data):
        [length] = struct.unpack_from(">I", data, place)
        if data[place + 4 : place + 8] == name:
            found.append(data[place + 8 : place + 8 + length])
        place += 12 + length
    return found


def test_a_still_picture_is_read_back_as_it_was_drawn(png: dict[str, Any]) -> None:
    drawn = plain(DARK)
    drawn[1, 2:5] = LIGHT

    data = png["encoded"]([png["Frame"](drawn, 0)])

    read = pygame.surfarray.array3d(pygame.image.load(io.BytesIO(data), "a.png"))
    assert np.array_equal(read.transpose(1, 0, 2), drawn)
    assert chunks(data, b"acTL") == []


def test_frames_alike_become_one_that_stays_longer(png: dict[str, Any]) -> None:
    frame = png["Frame"]
    lit = plain(DARK)
    lit[2, 3:5] = LIGHT

    data = png["encoded"]([frame(plain(DARK), 40), frame(plain(DARK), 40), frame(lit, 120)])

    assert chunks(data, b"acTL") == [struct.pack(">II", 2, 0)]
    assert [struct.unpack(">IIIIIHHBB", one) for one in chunks(data, b"fcTL")] == [
        (0, 6, 4, 0, 0, 80, 1000, 0, 1),
        (1, 2, 1, 3, 2, 120, 1000, 0, 1),
    ]


def test_of_a_later_frame_only_what_differs_is_stored(png: dict[str, Any]) -> None:
    lit = plain(DARK)
    lit[2, [2, 4]] = LIGHT

    data = png["encoded"]([png["Frame"](plain(DARK), 40), png["Frame"](lit, 40)])

    [later], [palette] = chunks(data, b"fdAT"), chunks(data, b"PLTE")
    colours = [tuple(palette[at : at + 3]) for at in range(0, len(palette), 3)]
    light = colours.index(LIGHT)
    assert chunks(data, b"tRNS") == [bytes([0])]
    assert zlib.decompress(later[4:]) == bytes([0, light, png["UNCHANGED"], light])


def test_of_many_colours_the_commonest_stay_exact_and_others_get_one_near(
    png: dict[str, Any],
) -> None:
    drawn = np.zeros((64, 64, 3), np.uint8)
    drawn[..., 0], drawn[..., 1] = np.meshgrid(np.arange(64) * 4, np.arange(64) * 4)
    drawn[:8] = LIGHT

    data = png["encoded"]([png["Frame"](drawn, 0)])

    read = pygame.surfarray.array3d(pygame.image.load(io.BytesIO(data), "a.png"))
    apart = np.abs(read.transpose(1, 0, 2).astype(int) - drawn)
    assert len(chunks(data, b"PLTE")[0]) == 3 * (png["COLOURS"] + 1)
    assert apart[:8].max() == 0
    assert np.median(apart) <= 16


def test_the_same_frames_give_the_same_bytes(png: dict[str, Any]) -> None:
    noise = np.random.default_rng(1).integers(0, 256, (8, 8, 3)).astype(np.uint8)
    frames = [png["Frame"](noise, 40), png["Frame"](255 - noise, 40)]

    assert png["encoded"](frames) == png["encoded"](frames)
