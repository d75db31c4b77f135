"""What a player can do at a screen, whichever of feet, keys, mouse or wheel buttons does it."""

from __future__ import annotations

from enum import StrEnum

import pygame

from engine.pedals.gestures import Gesture


class Action(StrEnum):
    """Something done at a screen."""

    GO = "go"
    NEXT = "next"
    PREVIOUS = "previous"
    BACK = "back"
    MENU = "menu"
    """Out of whatever this is, by way of a small menu."""


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
"""By number from 0; a player counts them from 1."""
_GESTURES = {
    Gesture.GO: (Action.GO,),
    Gesture.NEXT: (Action.NEXT,),
    Gesture.PREVIOUS: (Action.PREVIOUS,),
    Gesture.TWICE: (Action.PREVIOUS, Action.PREVIOUS),
    Gesture.MENU: (Action.MENU,),
}
RIGHT = 3
"""pygame's number of the right button of a mouse."""


def typed_by(event: pygame.event.Event) -> str | None:
    """What an event types, "\\b" where it takes a character back; None where it types nothing.

    A key that types a character may also come as one that is pressed: that types nothing more.
    """
    if event.type == pygame.TEXTINPUT:
        return str(event.text)
    if event.type == pygame.KEYDOWN and event.key == pygame.K_BACKSPACE:
        return "\b"
    if event.type == pygame.KEYDOWN and event.key == pygame.K_SPACE:
        return ""
    return None


def by_feet(gesture: Gesture) -> tuple[Action, ...]:
    """What a gesture of the feet does."""
    return _GESTURES[gesture]


def action_of(event: pygame.event.Event) -> Action | None:
    """What a key, a wheel button or the right one of a mouse does; None for any other event."""
    if event.type == pygame.KEYDOWN:
        return _KEYS.get(event.key)
    if event.type == pygame.MOUSEBUTTONDOWN and event.button == RIGHT:
        return Action.BACK
    if event.type == pygame.JOYBUTTONDOWN:
        return _BUTTONS.get(event.button)
    return None
