"""`SdlJoysticks`: SDL's joystick devices, told apart without opening them."""

from __future__ import annotations

import contextlib
import ctypes
import sys
from collections.abc import Callable, Sequence
from typing import NamedTuple, Protocol

import pygame

from engine.pedals.denied import denied_devices
from engine.pedals.identity import printable, short_guid


class Listed(NamedTuple):
    """Joystick device in SDL's list, open or not."""

    id: int
    """SDL's instance id, which is new each time the device is plugged in."""
    guid: str
    """GUID of the device, as in Model."""
    name: str
    """Name of the device, as in Model."""


class Joystick(Protocol):
    """Interface of pygame's joystick object, an open device that closes when it is collected.

    Every method may raise pygame.error.
    """

    def get_instance_id(self) -> int:
        """SDL's instance id, which is new each time the device is plugged in."""

    def get_guid(self) -> str:
        """GUID of the device's model, 32 hexadecimal digits."""

    def get_name(self) -> str:
        """Name that the device reports. Raises UnicodeDecodeError if it is not UTF-8."""

    def get_numaxes(self) -> int:
        """Number of axes of the device."""

    def get_numbuttons(self) -> int:
        """Number of buttons of the device."""

    def get_axis(self, axis_number: int, /) -> float:
        """Raw value of an axis of the device at the last event pump, from -1 to 1."""

    def get_button(self, button: int, /) -> bool | int:
        """Whether a button of the device was down at the last event pump."""


class JoystickModule(Protocol):
    """Interface of the module pygame.joystick, as far as it is used here."""

    def get_count(self) -> int:
        """Number of joystick devices plugged in."""

    def Joystick(self, index: int, /) -> Joystick:  # noqa: N802 (pygame's name)
        """Open the device at an index of SDL's list; indices move as devices come and go."""


class Joysticks(Protocol):
    """Interface of what lists and opens joystick devices."""

    def listed(self) -> Sequence[Listed]:
        """Devices in SDL's order, none of them opened for it."""

    def open_device(self, index: int, /) -> Joystick:
        """Open the device at an index of SDL's list. Raises pygame.error."""

    def denied(self) -> Sequence[str]:
        """Names of devices that SDL does not list, as the user may not read them."""


class _Guid(ctypes.Structure):
    """SDL_JoystickGUID."""

    _fields_ = (("digits", ctypes.c_uint8 * 16),)


def sdl_of_pygame() -> ctypes.CDLL:
    """Library that leads to the functions of the SDL that pygame has loaded. Raises OSError.

    A symbol is looked for in a library and in all that it is linked to, so that any part of pygame
    leads to its SDL, wherever that lies. On Windows it is looked for in the library alone, so that
    must be SDL2.dll, the one that is loaded: there may be more of that name.
    """
    if sys.platform == "win32":
        kernel = ctypes.WinDLL("kernel32")
        kernel.GetModuleHandleW.restype = ctypes.c_void_p
        handle = kernel.GetModuleHandleW("SDL2.dll")
        if handle is None:
            raise OSError("SDL2.dll is not loaded")
        return ctypes.CDLL("SDL2.dll", handle=handle)
    return ctypes.CDLL(pygame.base.__file__)


def _typed(find: Callable[[], ctypes.CDLL]) -> ctypes.CDLL | None:
    """SDL's library with the types of the functions used here; None if it is not found."""
    try:
        library = find()
        library.SDL_NumJoysticks.restype = ctypes.c_int
        for function, result in (
            (library.SDL_JoystickGetDeviceGUID, _Guid),
            (library.SDL_JoystickNameForIndex, ctypes.c_char_p),
            (library.SDL_JoystickGetDeviceInstanceID, ctypes.c_int32),
        ):
            function.argtypes, function.restype = [ctypes.c_int], result
    except (OSError, AttributeError):
        return None
    return library


class SdlJoysticks:
    """Joystick devices of the SDL that pygame runs on.

    pygame opens a device to tell its GUID, and its event JOYDEVICEADDED has the GUID without the
    instance id, and with an index that the next device may move. So SDL itself is asked, through
    ctypes: it tells GUID, name and instance id of any index at any time and opens nothing. Where
    SDL's library cannot be reached, every device is opened to be listed.
    """

    def __init__(
        self,
        module: JoystickModule = pygame.joystick,
        find: Callable[[], ctypes.CDLL] = sdl_of_pygame,
    ) -> None:
        """`find` finds the library with SDL's functions; it may raise OSError."""
        self._module = module
        self._sdl = _typed(find)

    def listed(self) -> Sequence[Listed]:
        """Devices in SDL's order, opened for it only where SDL's library cannot be reached."""
        sdl, count = self._sdl, self._module.get_count()
        # Another copy of SDL, which pygame does not run on, has no devices.
        if sdl is None or sdl.SDL_NumJoysticks() != count:
            return listed_by_opening(self._module)
        return [
            Listed(
                sdl.SDL_JoystickGetDeviceInstanceID(index),
                short_guid(bytes(sdl.SDL_JoystickGetDeviceGUID(index).digits).hex()),
                shown_name(sdl.SDL_JoystickNameForIndex(index) or b""),
            )
            for index in range(count)
        ]

    def open_device(self, index: int, /) -> Joystick:
        """Open the device at an index of SDL's list. Raises pygame.error."""
        return self._module.Joystick(index)

    def denied(self) -> Sequence[str]:
        """Names of devices that SDL does not list, as the user may not read them."""
        return denied_devices()


def listed_by_opening(module: JoystickModule) -> list[Listed]:
    """Devices in SDL's order, each opened for it; one that cannot be opened is left out."""
    devices: list[Listed] = []
    for index in range(module.get_count()):
        with contextlib.suppress(pygame.error):
            joystick = module.Joystick(index)
            guid = short_guid(joystick.get_guid())
            devices.append(Listed(joystick.get_instance_id(), guid, joystick_name(joystick)))
    return devices


def joystick_name(joystick: Joystick) -> str:
    """Name of an open device, as in Model."""
    try:
        return printable(joystick.get_name())
    except UnicodeDecodeError as error:
        return shown_name(error.object)


def shown_name(name: bytes) -> str:
    """Name of a device, as in Model, from what it reports in whatever encoding."""
    return printable(name.decode(errors="backslashreplace"))
