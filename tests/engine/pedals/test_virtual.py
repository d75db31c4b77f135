"""Devices on real SDL with virtual pedals, each test in its own process."""

import os
import subprocess
import sys
from pathlib import Path

ROOT = Path(__file__).resolve().parents[3]

START = """
import ctypes
import shutil
import sys
import numpy
import pygame
from engine.pedals.bound import Binding, BoundAxis
from drills.calibration import Range
from engine.pedals.listing import SdlJoysticks
from engine.pedals.sdl import Devices, SdlPedals
from tests.rig import VirtualPedals, sdl

pygame.display.init()
pygame.display.set_mode((64, 64))
pygame.joystick.init()
devices = Devices()


def bound(pedals, axis):
    return BoundAxis(devices.identity(pedals.instance_id), axis, Range(-1.0, 1.0))


class Counted:
    opened = 0
    get_count = staticmethod(pygame.joystick.get_count)

    def Joystick(self, index):
        self.opened += 1
        return pygame.joystick.Joystick(index)


def raw(pedals):
    pygame.event.pump()
    reading = pedals.read()
    return None if reading is None else (reading.brake, reading.throttle)


"""


def printed(script: str, *arguments: str) -> list[str]:
    """Lines that a script with some arguments prints after the common start."""
    ended = subprocess.run(
        [sys.executable, "-W", "ignore", "-c", START + script, *arguments],
        cwd=ROOT,
        env=os.environ
        | {
            "SDL_VIDEODRIVER": "dummy",
            "SDL_JOYSTICK_ALLOW_BACKGROUND_EVENTS": "1",
            "PYGAME_HIDE_SUPPORT_PROMPT": "1",
        },
        capture_output=True,
        text=True,
        timeout=60,
        check=False,
    )
    assert (ended.returncode, ended.stderr) == (0, "")
    return ended.stdout.splitlines()


def test_a_device_whose_name_is_not_utf_8_is_usable() -> None:
    lines = printed("""
odd = VirtualPedals(b"Pedal \\xff\\xfe").plug()
devices.rescan()
pedals = SdlPedals(devices, Binding(bound(odd, 0), bound(odd, 1)), lambda: 0)
print(devices.identity(odd.instance_id).name, pedals.connect())
odd.set(0, 0.5)
print(raw(pedals))
""")

    assert lines == ["Pedal \\xff\\xfe None", "(0.5, -1.0)"]


def test_wheel_buttons_work_while_pedals_are_in_use() -> None:
    lines = printed("""
wheel = VirtualPedals("Wheel", product=2, buttons=4).plug()
feet = VirtualPedals("Pedals").plug()
devices.rescan()
wheel.leave()
pedals = SdlPedals(devices, Binding(bound(feet, 0), bound(feet, 1)), lambda: 0)
pedals.connect()
pygame.event.get(exclude=[pygame.JOYDEVICEREMOVED])
wheel.button(2, True)
print([event.button for event in pygame.event.get(pygame.JOYBUTTONDOWN)])
""")

    assert lines == ["[2]"]


def test_twins_keep_their_pedals_when_one_is_replugged_between_two_rescans() -> None:
    lines = printed("""
left, right = VirtualPedals().plug(), VirtualPedals().plug()
devices.rescan()
pedals = SdlPedals(devices, Binding(bound(left, 0), bound(right, 0)), lambda: 0)
pedals.connect()
left.unplug()
left.plug()
pygame.event.pump()
changes = devices.rescan()
print(len(changes.added), len(changes.lost), pedals.lost(changes), pedals.connect())
left.set(0, 0.25)
right.set(0, 0.5)
print(raw(pedals))
left.unplug()
pygame.event.pump()
devices.rescan()
print(pedals.connect(), raw(pedals))
""")

    assert lines == ["1 1 True None", "(0.25, 0.5)", "Missing.ABSENT None"]


def test_devices_are_listed_without_opening_any_and_opened_only_where_sdl_is_not_reached(
    tmp_path: Path,
) -> None:
    lines = printed(
        """
plugged = [
    VirtualPedals("Pedals").plug().leave(),
    VirtualPedals(b"Wheel \\xff", product=2).plug().leave(),
    VirtualPedals("Pedals").plug().leave(),
]
listed = SdlJoysticks().listed()
print([device.is_open for device in plugged])
print([device.id == pedals.instance_id for device, pedals in zip(listed, plugged)])
print([(device.guid, device.name) for device in listed])
copy = shutil.copy(sdl()._name, sys.argv[1])
for library in ("no such library", numpy.random.mtrand.__file__, copy):
    counted = Counted()
    found = SdlJoysticks(counted, lambda: ctypes.CDLL(library)).listed()
    print(found == listed, counted.opened)
""",
        str(tmp_path),
    )

    guids = [f"ff00f0ff00000{product}00000000007602" for product in (1, 2, 1)]
    names = ["Pedals", "Wheel \\xff", "Pedals"]
    assert lines[:2] == ["[False, False, False]", "[True, True, True]"]
    assert lines[2:] == [str(list(zip(guids, names, strict=True))), *["True 3"] * 3]


def test_bound_pedals_are_opened_alone_and_a_closed_device_is_closed_in_sdl() -> None:
    lines = printed("""
feet, wheel = VirtualPedals("Pedals").plug().leave(), VirtualPedals("Wheel", product=2).plug()
wheel.leave()
devices.rescan()
binding = Binding(bound(feet, 0), bound(feet, 1))
pedals = SdlPedals(devices, binding, lambda: 0)
print(feet.is_open, wheel.is_open)
devices.rescan()
devices.rescan()
pedals.connect()
print(feet.is_open, wheel.is_open)
devices.rescan(binding.guids)
devices.close_others([])
print(feet.is_open, wheel.is_open)
""")

    assert lines == ["True True", "True False", "False False"]
