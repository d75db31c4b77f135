"""Actions of keys, buttons and gestures, and what an event types."""

import pygame
import pytest

from engine.pedals.gestures import Gesture
from engine.stage.actions import Action, action_of, actions_of_gesture, typed_by


def key(number: int) -> pygame.event.Event:
    """A key that goes down."""
    return pygame.event.Event(pygame.KEYDOWN, key=number)


@pytest.mark.parametrize(
    ("event", "action"),
    [
        (key(pygame.K_RETURN), Action.GO),
        (key(pygame.K_SPACE), Action.GO),
        (key(pygame.K_DOWN), Action.NEXT),
        (key(pygame.K_UP), Action.PREVIOUS),
        (key(pygame.K_ESCAPE), Action.BACK),
        (key(pygame.K_a), None),
        *(
            (pygame.event.Event(pygame.JOYBUTTONDOWN, button=button), action)
            for button, action in enumerate((Action.GO, Action.NEXT, Action.BACK, None))
        ),
        *(
            (pygame.event.Event(pygame.MOUSEBUTTONDOWN, button=button), action)
            for button, action in ((1, None), (2, None), (3, Action.BACK))
        ),
        (pygame.event.Event(pygame.KEYUP, key=pygame.K_RETURN), None),
    ],
)
def test_keys_wheel_buttons_and_the_right_mouse_button_act(
    event: pygame.event.Event, action: Action | None
) -> None:
    assert action_of(event) is action


@pytest.mark.parametrize(
    ("event", "text"),
    [
        (pygame.event.Event(pygame.TEXTINPUT, text="é"), "é"),
        (key(pygame.K_BACKSPACE), "\b"),
        (key(pygame.K_SPACE), ""),
        (key(pygame.K_a), None),
        (pygame.event.Event(pygame.KEYUP, key=pygame.K_BACKSPACE), None),
        (pygame.event.Event(pygame.MOUSEMOTION, pos=(1, 1)), None),
    ],
)
def test_text_and_the_backspace_type_and_nothing_else(
    event: pygame.event.Event, text: str | None
) -> None:
    assert typed_by(event) == text


@pytest.mark.parametrize(
    ("gesture", "actions"),
    [
        (Gesture.GO, (Action.GO,)),
        (Gesture.NEXT, (Action.NEXT,)),
        (Gesture.PREVIOUS, (Action.PREVIOUS,)),
        (Gesture.TWICE, (Action.PREVIOUS, Action.PREVIOUS)),
        (Gesture.MENU, (Action.MENU,)),
    ],
)
def test_every_gesture_of_the_foot_acts(gesture: Gesture, actions: tuple[Action, ...]) -> None:
    assert actions_of_gesture(gesture) == actions
