"""Every screen of the engine is among those that the picture tests draw."""

import importlib
import pkgutil
from collections.abc import Iterator
from typing import Any

import engine
from engine.kit.base import Menu, Screen
from engine.kit.settling import SettlingMenu
from engine.kit.timed_screen import TimedScreen
from engine.setup.any_pedal_menu import AnyPedalMenu
from engine.setup.search_screen import SearchScreen
from tests.engine.pictures import every_screen

BASES: set[type] = {Menu, TimedScreen, SettlingMenu, SearchScreen, AnyPedalMenu}
"""Screens that only others derive from and that are never shown themselves."""


def screens_below(parent: type[Screen[Any]]) -> Iterator[type]:
    """Every class of the engine that derives from a screen, at any depth."""
    for child in parent.__subclasses__():
        if child.__module__.startswith("engine."):
            yield child
        yield from screens_below(child)


def test_the_picture_tests_draw_every_screen_of_the_engine() -> None:
    for module in pkgutil.walk_packages(engine.__path__, "engine."):
        # The top of an installed package changes the path when it is imported.
        if not module.name.endswith("__main__") and module.name != "engine.installed":
            importlib.import_module(module.name)
    screens = set(screens_below(Screen))

    drawn = {type(screen) for screen in every_screen().values()}

    assert screens - drawn == BASES
