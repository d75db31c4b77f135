"""Virtual pedals, keys and mouse, plugged into the very SDL that pygame runs on.

Import pygame first: the rig attaches to the libSDL2 pygame loaded, not to a second copy of it.
Everything here may be called from any thread; what it does reaches the game at its next pump.
"""

import ctypes
import re
import shutil
import struct
import subprocess
import sys
import threading
import time
from collections.abc import Callable, Sequence
from ctypes import c_char_p, c_int, c_int16, c_int32, c_uint8, c_uint16, c_uint32, c_void_p
from functools import cache
from pathlib import Path
from typing import Any, ClassVar, Self, TypeVar

from tests.waiting import wait_until

T = TypeVar("T")
Position = Callable[[float], Sequence[float]]  # seconds since the start -> a value for each axis

FULL_SCALE = 32768  # counts from the middle of an axis to its lower end, as get_axis() divides
WHEEL = 2  # SDL_JOYSTICK_TYPE_WHEEL
INIT_JOYSTICK = 0x200  # SDL_INIT_JOYSTICK
KEY_DOWN, KEY_UP, TEXT_INPUT, BUTTON_DOWN, BUTTON_UP = 0x300, 0x301, 0x303, 0x401, 0x402
EVENT_BYTES = 56  # sizeof(SDL_Event) where a pointer has 64 bits


class _Description(ctypes.Structure):
    """SDL_VirtualJoystickDesc, version 1. The callbacks stay null: they run inside SDL's lock."""

    _fields_ = (
        *((field, c_uint16) for field in ("version", "type", "axes", "buttons", "hats")),
        *((field, c_uint16) for field in ("vendor", "product", "padding")),
        *((field, c_uint32) for field in ("button_mask", "axis_mask")),
        ("name", c_char_p),
        ("callbacks", c_void_p * 7),
    )


class VirtualSdl(ctypes.CDLL):
    """The SDL library already in this process, its functions typed.

    Each call releases the interpreter lock, so a call that waits for SDL's lock blocks no thread.
    """

    TYPES: ClassVar[dict[str, tuple[Any, ...]]] = {  # result, then arguments
        "SDL_WasInit": (c_uint32, c_uint32),
        "SDL_GetError": (c_char_p,),
        "SDL_JoystickAttachVirtualEx": (c_int, ctypes.POINTER(_Description)),
        "SDL_JoystickDetachVirtual": (c_int, c_int),
        "SDL_NumJoysticks": (c_int,),
        "SDL_JoystickGetDeviceInstanceID": (c_int32, c_int),
        "SDL_JoystickOpen": (c_void_p, c_int),
        "SDL_JoystickFromInstanceID": (c_void_p, c_int32),
        "SDL_JoystickSetVirtualAxis": (c_int, c_void_p, c_int, c_int16),
        "SDL_JoystickGetAxis": (c_int16, c_void_p, c_int),
        "SDL_JoystickSetVirtualButton": (c_int, c_void_p, c_int, c_uint8),
        "SDL_JoystickClose": (None, c_void_p),
        "SDL_PushEvent": (c_int, c_void_p),
        "SDL_GetKeyFromName": (c_int32, c_char_p),
        "SDL_GetScancodeFromKey": (c_int, c_int32),
        "SDL_GetCurrentVideoDriver": (c_char_p,),
        "SDL_GetWindowFromID": (c_void_p, c_uint32),
        "SDL_WarpMouseInWindow": (None, c_void_p, c_int, c_int),
    }

    def __init__(self) -> None:
        super().__init__(str(_library()))
        for name, (result, *arguments) in self.TYPES.items():
            function = getattr(self, name)
            function.restype, function.argtypes = result, arguments

    def push(self, layout: str, *fields: int | bytes) -> None:
        """Queue one SDL_Event, its fields packed as the C compiler lays them out."""
        event = ctypes.create_string_buffer(struct.pack(layout, *fields), EVENT_BYTES)
        if self.SDL_PushEvent(event) < 0:
            raise RuntimeError(f"SDL refused an event: {self.SDL_GetError().decode()}")


def _library() -> Path:
    """The SDL library that pygame has loaded: beside pygame, or wherever Linux maps it from."""
    if "pygame" not in sys.modules:
        raise RuntimeError("no SDL library in this process: import pygame before using the rig")
    package = Path(str(sys.modules["pygame"].__file__)).parent
    for path in (package / "SDL2.dll", *package.glob(".dylibs/libSDL2-2*.dylib")):
        if path.exists():
            return path
    maps = Path("/proc/self/maps").read_text(encoding="utf-8")
    found = re.search(r"/.*/libSDL2-2[-.][^/]*$", maps, re.MULTILINE)
    if found is None:
        raise RuntimeError("no SDL library in this process, though pygame is loaded")
    return Path(found[0])


@cache
def sdl() -> VirtualSdl:
    """The one VirtualSdl of this process, found at first use."""
    return VirtualSdl()


def to_counts(value: float) -> int:
    """Axis position -1.0..1.0 as int16 counts; beyond the ends it saturates, as a converter does.

    get_axis() reads back counts / 32768: -1.0 exactly, but 0.99997 at the upper end.
    """
    return max(-FULL_SCALE, min(FULL_SCALE - 1, round(value * FULL_SCALE)))


class VirtualPedals:
    """One pedal set: a device of `axes` axes with `rest` a position -1.0..1.0 each, and buttons.

    Sets of the same name, vendor and product share their GUID, as two of one model do. A name
    given as bytes goes to SDL as it is, in whatever encoding: devices are not made to tell one.
    """

    def __init__(
        self,
        name: str | bytes = "Quiet Works Pedals",
        axes: int = 3,
        rest: Sequence[float] = (-1.0, -1.0, -1.0),
        vendor: int = 0xFFF0,
        product: int = 0x0001,
        buttons: int = 0,
    ) -> None:
        if len(rest) != axes:
            raise ValueError(f"rest: expected {axes} axis values, found {len(rest)}")
        self.name = name if isinstance(name, str) else name.decode(errors="backslashreplace")
        self.rest, self.vendor, self.product, self.buttons = tuple(rest), vendor, product, buttons
        self._called = name.encode() if isinstance(name, str) else name
        self.instance_id: int | None = None  # SDL's id for this plugging, None while unplugged
        self._guard = threading.RLock()  # no axis is set while the device comes or goes

    def plug(self) -> Self:
        """Attach, open and put every axis at rest. The game has called pygame.joystick.init()."""
        with self._guard:
            if self.instance_id is not None:
                raise RuntimeError(f"{self.name}: already plugged")
            if not sdl().SDL_WasInit(INIT_JOYSTICK):
                raise RuntimeError(f"{self.name}: call pygame.joystick.init() before plug()")
            ids = {"vendor": self.vendor, "product": self.product, "name": self._called}
            counts = {"axes": len(self.rest), "buttons": self.buttons}
            description = _Description(version=1, type=WHEEL, **counts, **ids)
            index = sdl().SDL_JoystickAttachVirtualEx(description)
            if index < 0 or not sdl().SDL_JoystickOpen(index):
                raise RuntimeError(f"{self.name}: not attached: {sdl().SDL_GetError().decode()}")
            self.instance_id = sdl().SDL_JoystickGetDeviceInstanceID(index)
            for axis, value in enumerate(self.rest):
                self.set(axis, value)
        return self

    def leave(self) -> Self:
        """Close the rig's own opening, so that the device is open only where the game opens it."""
        sdl().SDL_JoystickClose(self._opened("closing"))
        return self

    @property
    def is_open(self) -> bool:
        """Whether the device is open, by the rig or by the game."""
        instance = self.instance_id
        return instance is not None and bool(sdl().SDL_JoystickFromInstanceID(instance))

    def set(self, axis: int, value: float) -> None:
        """Move one axis to a position, -1.0..1.0; the game reads it after its next pump."""
        with self._guard:
            opened = self._opened(f"axis {axis}")
            if sdl().SDL_JoystickSetVirtualAxis(opened, axis, to_counts(value)) < 0:
                raise RuntimeError(f"{self.name}: no axis {axis} among {len(self.rest)}")

    def is_read(self, axis: int, value: float) -> bool:
        """Whether the game's last pump found an axis at a position, -1.0..1.0."""
        with self._guard:
            opened = self._opened(f"axis {axis}")
            return bool(sdl().SDL_JoystickGetAxis(opened, axis) == to_counts(value))

    def button(self, number: int, down: bool) -> None:
        """Press a button, from 0, or let it go; the game hears of it at its next pump."""
        with self._guard:
            opened = self._opened(f"button {number}")
            if sdl().SDL_JoystickSetVirtualButton(opened, number, down) < 0:
                raise RuntimeError(f"{self.name}: no button {number} among {self.buttons}")

    def _opened(self, part: str) -> int:
        instance = self.instance_id
        opened = None if instance is None else sdl().SDL_JoystickFromInstanceID(instance)
        if not opened:
            raise RuntimeError(f"{self.name}: {part} asked for while unplugged")
        return int(opened)

    def unplug(self) -> None:
        """Detach and close; does nothing when already unplugged or when the game has quit SDL."""
        with self._guard:
            if self.instance_id is None:
                return
            # Device indices move whenever a device comes or goes, so the index is looked up now.
            for index in range(sdl().SDL_NumJoysticks()):
                if sdl().SDL_JoystickGetDeviceInstanceID(index) == self.instance_id:
                    sdl().SDL_JoystickDetachVirtual(index)
                    break
            if opened := sdl().SDL_JoystickFromInstanceID(self.instance_id):
                sdl().SDL_JoystickClose(opened)
            self.instance_id = None

    def __enter__(self) -> Self:
        return self.plug()

    def __exit__(self, *exception: object) -> None:
        self.unplug()


class Feeder(threading.Thread):
    """Moves pedals along `position`, `rate` times a second, from start() to stop().

    Steps fall on absolute deadlines; one that comes too late is skipped, never made up for.
    Stop it before unplugging; an error in its thread is raised again by stop().
    """

    def __init__(
        self, pedals: VirtualPedals, position: Position, rate: float = 1000.0, keep: bool = False
    ) -> None:
        super().__init__(name=f"feeder of {pedals.name}", daemon=True)
        self.changes = 0  # axis values set that differ, in counts, from the one before
        self.kept: list[tuple[int, float]] = []  # (monotonic_ns just before, value) of axis 0
        self._pedals, self._position, self._keep = pedals, position, keep
        self._last = [to_counts(value) for value in pedals.rest]
        self._period_ns = round(1e9 / rate)
        self._stopping = threading.Event()
        self._error: Exception | None = None

    def run(self) -> None:
        """Feed until stopped or until something fails."""
        start_ns, step = time.monotonic_ns(), 0
        try:
            while not self._stopping.is_set():
                self._move(self._position(step * self._period_ns / 1e9))
                step = max(step + 1, (time.monotonic_ns() - start_ns) // self._period_ns)
                wait_until((start_ns + step * self._period_ns) / 1e9)
        except Exception as error:
            self._error = error

    def _move(self, values: Sequence[float]) -> None:
        if len(values) != len(self._last):
            raise ValueError(f"position: expected {len(self._last)} values, found {len(values)}")
        for axis, value in enumerate(values):
            if (counts := to_counts(value)) != self._last[axis]:
                now_ns = time.monotonic_ns()
                self._pedals.set(axis, value)
                self._last[axis] = counts
                self.changes += 1
                if self._keep and axis == 0:
                    self.kept.append((now_ns, counts / FULL_SCALE))

    def stop(self) -> None:
        """End the thread, join it, and raise what went wrong in it."""
        self._stopping.set()
        self.join()
        if self._error is not None:
            raise self._error


def press_key(name: str) -> None:
    """Queue a key down and up, with its text if it has one: "return", "left", "space", "a".

    The game gets the events it gets from a keyboard; pygame.key.get_pressed() does not follow.
    """
    key = sdl().SDL_GetKeyFromName(name.encode())
    if not key:
        raise ValueError(f"key: expected a name SDL knows, found {name!r}")
    layout, scancode = "=IIIBBxxiiHxxI", sdl().SDL_GetScancodeFromKey(key)
    sdl().push(layout, KEY_DOWN, 0, 0, 1, 0, scancode, key, 0, 0)
    if ord(" ") <= key <= ord("~"):
        sdl().push("=III32s", TEXT_INPUT, 0, 0, bytes([key]))
    sdl().push(layout, KEY_UP, 0, 0, 0, 0, scancode, key, 0, 0)


def move_mouse(x: int, y: int) -> None:
    """Move the pointer to window pixels; pygame.mouse.get_pos() follows on every driver."""
    window = next(filter(None, map(sdl().SDL_GetWindowFromID, range(1, 100))), None)
    if window is None:
        raise RuntimeError("move_mouse: the game has no window")
    sdl().SDL_WarpMouseInWindow(window, x, y)


def mouse_button(down: bool, x: int, y: int) -> None:
    """Press or let go the left button at window pixels.

    On X11 with xdotool it is real input, and pygame.mouse.get_pressed() follows. Elsewhere only
    the event is queued: SDL changes the button state for real input alone. A real press just
    as the window gains focus is lost: wait for the focus, or set SDL_MOUSE_FOCUS_CLICKTHROUGH=1.
    """
    move_mouse(x, y)
    if sdl().SDL_GetCurrentVideoDriver() == b"x11" and shutil.which("xdotool"):
        subprocess.run(["xdotool", "mousedown" if down else "mouseup", "1"], check=True)
    else:
        kind = BUTTON_DOWN if down else BUTTON_UP
        sdl().push("=IIIIBBBxii", kind, 0, 0, 0, 1, down, 1, x, y)
