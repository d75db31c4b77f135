"""What a player can do at a screen, whichever of feet, keys, mouse or wheel buttons does it."""

from __future__ import annotations

from enum import StrEnum

import pygame


class Action(StrEnum):
    """Something done at a screen."""

    GO = "go"
    NEXT = "next"
    PREVIOUS = "previous"
    BACK = "back"


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


def action_of(event: pygame.event.Event) -> Action | None:
    """What a key or a wheel button does; None for every other event."""
    if event.type == pygame.KEYDOWN:
        return _KEYS.get(event.key)
    if event.type == pygame.JOYBUTTONDOWN:
        return _BUTTONS.get(event.button)
    return None
