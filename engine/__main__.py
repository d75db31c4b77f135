"""Entry point of `python -m engine`, which is the same as `stillfoot`."""

from __future__ import annotations

import sys
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from engine.commands.stopping import Stopping

INTERRUPTED = 130
"""Exit code after Ctrl-C before the program listens to signals itself, as shells have it."""


def run() -> int:
    """Run stillfoot with the arguments of the process; returns its exit code.

    The program is imported here, so that a signal during the import ends it without a traceback.
    """
    try:
        from engine.commands.stopping import exit_code_of

        return exit_code_of(_run)
    except KeyboardInterrupt:
        return INTERRUPTED


def run_game() -> int:
    """Run stillfoot where nobody may see a console: errors are shown in a window of their own.

    Returns its exit code.
    """
    try:
        from engine.commands.stopping import exit_code_of

        return exit_code_of(_run_boxed)
    except KeyboardInterrupt:
        return INTERRUPTED


def _run(stopping: Stopping) -> int:
    from engine.commands.main import main

    return main(stopping=stopping)


def _run_boxed(stopping: Stopping) -> int:
    from engine.commands.boxed import run_boxed

    return run_boxed(stopping)


if __name__ == "__main__":
    sys.exit(run())
