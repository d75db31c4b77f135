"""Actions of the player in menus, mapped from foot gestures, keys, mouse and wheel buttons."""

from __future__ import annotations

from enum import StrEnum

import pygame

from engine.pedals.gestures import Gesture
from engine.pedals.identity import DeviceButton


class Action(StrEnum):
    """What the player asks a screen for, by feet, keys, mouse or wheel buttons."""

    GO = "go"
    NEXT = "next"
    PREVIOUS = "previous"
    BACK = "back"
    MENU = "menu"
    """Open the small menu from which the player can leave a set or session."""


_KEYS = {
    pygame.K_RETURN: Action.GO,
    pygame.K_KP_ENTER: Action.GO,
    pygame.K_SPACE: Action.GO,
    pygame.K_DOWN: Action.NEXT,
    pygame.K_RIGHT: Action.NEXT,
    pygame.K_TAB: Action.NEXT,
    pygame.K_UP: Action.PREVIOUS,
    pygame.K_LEFT: Action.PREVIOUS,
    pygame.K_ESCAPE: Action.BACK,
    pygame.K_AC_BACK: Action.BACK,
}
_BUTTONS = {0: Action.GO, 1: Action.NEXT, 2: Action.BACK}
"""Actions of wheel buttons, by button number from 0; on screens they are numbered from 1."""
_GESTURES = {
    Gesture.GO: (Action.GO,),
    Gesture.NEXT: (Action.NEXT,),
    Gesture.PREVIOUS: (Action.PREVIOUS,),
    Gesture.TWICE: (Action.PREVIOUS, Action.PREVIOUS),
    Gesture.MENU: (Action.MENU,),
}
RIGHT_BUTTON = 3
"""pygame's number of the right mouse button."""


def typed_by(event: pygame.event.Event) -> str | None:
    """Text that an SDL event types: "\\b" deletes a character; None: the event types no text.

    SDL reports the space bar twice, as a key and as text. The key gives "", so that it neither
    types a second space nor chooses.
    """
    if event.type == pygame.TEXTINPUT:
        return str(event.text)
    if event.type == pygame.KEYDOWN and event.key == pygame.K_BACKSPACE:
        return "\b"
    if event.type == pygame.KEYDOWN and event.key == pygame.K_SPACE:
        return ""
    return None


def actions_of_gesture(gesture: Gesture) -> tuple[Action, ...]:
    """Actions on a screen that a gesture of the feet stands for, in order."""
    return _GESTURES[gesture]


def button_of(event: pygame.event.Event) -> DeviceButton | None:
    """Button whose press an SDL event tells of; None: the event tells of none."""
    if event.type != pygame.JOYBUTTONDOWN or not hasattr(event, "instance_id"):
        return None
    return DeviceButton(event.instance_id, event.button)


def action_of(event: pygame.event.Event) -> Action | None:
    """Action that a key, a wheel button or the right mouse button stands for; None: no action."""
    if event.type == pygame.KEYDOWN:
        return _KEYS.get(event.key)
    if event.type == pygame.MOUSEBUTTONDOWN and event.button == RIGHT_BUTTON:
        return Action.BACK
    if event.type == pygame.JOYBUTTONDOWN:
        return _BUTTONS.get(event.button)
    return None
