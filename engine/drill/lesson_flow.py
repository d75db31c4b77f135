"""Flows that show a player the movement: before the first repetition of a kind, and on request."""

from __future__ import annotations

from dataclasses import replace

from drills.level import Level
from engine.drill.attempt import Setting
from engine.drill.interruptions import Pause, SmallMenu
from engine.drill.lesson import Lesson
from engine.drill.lesson_moves import MOVES, lesson_name
from engine.drill.lesson_way import NoChange, WayMenu
from engine.drill.lesson_words import WORDS, terms_of
from engine.kit.base import Place
from engine.kit.flow import show
from engine.kit.foot_pose import Way
from engine.stage.scene import Flow


def teach(level: Level, setting: Setting, place: Place | None = None) -> Flow[Setting]:
    """Show the lesson of a level that is played next, unless the player has seen it.

    Returns the setting with the player's way to blip, which may have been chosen just now. Raises
    StoreError.
    """
    name, lessons = lesson_name(level), setting.lessons
    if lessons is None:
        return setting
    if name is not None and name not in (seen := lessons.seen):
        way = yield from _way_for(name, setting)
        screen = Lesson(name, level.kind.title, way, terms_of(name, seen), place)
        yield from show(screen, setting.rig, setting.stage)
        lessons.mark_seen(name)
    return replace(setting, way=lessons.way or setting.way)


def show_movement(level: Level, setting: Setting) -> Flow[None]:
    """Show the lesson of a level once more, with all terms that it needs. Raises StoreError."""
    name = lesson_name(level)
    if name is not None:
        way = yield from _way_for(name, setting)
        screen = Lesson(name, level.kind.title, way, WORDS[name].terms)
        yield from show(screen, setting.rig, setting.stage)


def pause_set(
    done: int, of: int, place: Place | None, level: Level, setting: Setting
) -> Flow[Pause]:
    """Show the small menu of a set until the player goes on or leaves. Raises StoreError.

    `done` and `of` are as in `SmallMenu`; `level` is the one whose movement it can show.
    """
    while True:
        menu = SmallMenu(done, of, place, movement=lesson_name(level) is not None)
        chosen = yield from show(menu, setting.rig, setting.stage)
        if chosen is not Pause.MOVEMENT:
            return chosen
        yield from show_movement(level, setting)


def change_way(setting: Setting) -> Flow[None]:
    """Let the player say how they blip. Raises StoreError."""
    lessons = setting.lessons
    if lessons is not None:
        chosen = yield from show(WayMenu(lessons.way or setting.way), setting.rig, setting.stage)
        if not isinstance(chosen, NoChange):
            lessons.choose(chosen)


def _way_for(name: str, setting: Setting) -> Flow[Way]:
    """The player's way to blip, asked for once, before the first lesson with a throttle."""
    lessons = setting.lessons
    if lessons is None or not MOVES[name].blips:
        return setting.way
    way = lessons.way
    if way is None:
        chosen = yield from show(WayMenu(None), setting.rig, setting.stage)
        way = setting.way if isinstance(chosen, NoChange) else chosen
        lessons.choose(way)
    return way
