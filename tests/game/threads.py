"""Runs the game in the main thread while a script plays it in another."""

import threading
from collections.abc import Callable

import pygame

ENDING = 10.0
"""Seconds a script may take after the game has ended."""


def play(script: Callable[[], None], game: Callable[[], int]) -> int:
    """Run the game in this thread while a script plays it in another; returns the exit code.

    Raises what the script raised, or RuntimeError where the game ended before the script.
    """
    failures: list[BaseException] = []

    def run() -> None:
        try:
            script()
        except BaseException as error:
            failures.append(error)
            pygame.event.post(pygame.event.Event(pygame.QUIT))

    thread = threading.Thread(target=run, daemon=True)
    thread.start()
    code = game()
    thread.join(ENDING)
    if failures:
        raise failures[0]
    if thread.is_alive():
        raise RuntimeError(f"the game ended with {code} before its player had done everything")
    return code
