"""A screen of their own for the processes that tests start, and pictures of it for hand use."""

import os
import select
import shutil
import subprocess
import sys
import time
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path

START_S = 10.0  # Xvfb is up in 0.1 s on an idle machine; this allows for a busy one
STOP_S = 5.0


@contextmanager
def virtual_display(
    size: tuple[int, int] = (2560, 1440), audio: str | None = "dummy"
) -> Iterator[dict[str, str]]:
    """Yield the whole environment for a child process that draws, `size` in pixels.

    The screen is an Xvfb of its own where Xvfb is installed, else the present DISPLAY, else, on
    Linux, SDL's dummy driver; elsewhere a screen is always there. `audio` names the SDL audio
    driver; None leaves it as it is. Nothing else in the environment is touched.
    """
    environment = dict(os.environ)
    if audio is not None:
        environment["SDL_AUDIODRIVER"] = audio
    if not shutil.which("Xvfb"):
        if sys.platform.startswith("linux") and not environment.get("DISPLAY"):
            environment["SDL_VIDEODRIVER"] = "dummy"
        yield environment
        return
    with _xvfb(size) as display:
        yield environment | {"DISPLAY": display, "SDL_VIDEODRIVER": "x11"}


@contextmanager
def _xvfb(size: tuple[int, int]) -> Iterator[str]:
    """Run Xvfb with 24 bit colour on a display number it picks itself; yield the display."""
    width, height = size
    read_end, write_end = os.pipe()
    screen = ["-screen", "0", f"{width}x{height}x24"]
    # -noreset: otherwise a client that connects just as the last one leaves can be refused.
    server = subprocess.Popen(
        ["Xvfb", "-displayfd", str(write_end), *screen, "-nolisten", "tcp", "-noreset"],
        pass_fds=[write_end],
        stdout=subprocess.DEVNULL,
        stderr=subprocess.DEVNULL,
    )
    os.close(write_end)
    try:
        yield f":{_display_number(read_end)}"
    finally:
        os.close(read_end)
        server.terminate()
        try:
            server.wait(STOP_S)
        except subprocess.TimeoutExpired:
            server.kill()
            server.wait()


def _display_number(read_end: int) -> int:
    """The number Xvfb writes, with a newline, once it takes connections."""
    written, deadline = b"", time.monotonic() + START_S
    while not written.endswith(b"\n"):
        ready, _, _ = select.select([read_end], [], [], max(0.0, deadline - time.monotonic()))
        if not ready:
            raise TimeoutError(f"Xvfb gave no display number within {START_S:g} s")
        part = os.read(read_end, 16)
        if not part:
            raise RuntimeError("Xvfb ended before it gave a display number")
        written += part
    return int(written)


def screenshot(display: str, path: Path) -> None:
    """Save a picture of a whole X display, such as ":99"; the suffix of `path` sets the format."""
    if shutil.which("import"):
        command = ["import", "-display", display, "-window", "root", str(path)]
        subprocess.run(command, check=True)
    elif shutil.which("xwd") and shutil.which("convert"):
        dump = subprocess.run(
            ["xwd", "-display", display, "-root"], check=True, stdout=subprocess.PIPE
        )
        subprocess.run(["convert", "xwd:-", str(path)], check=True, input=dump.stdout)
    else:
        raise RuntimeError("screenshot: expected import, or xwd and convert, found neither")
