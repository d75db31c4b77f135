"""Entry point of `python -m engine`, which is the same as `stillfoot`."""

import sys

INTERRUPTED = 130
"""Exit code after Ctrl-C before the program listens to signals itself, as shells have it."""


def run() -> int:
    """Run stillfoot with the arguments of the process; returns its exit code.

    The program is imported here, so that Ctrl+C during the import ends it without a traceback.
    """
    try:
        from engine.commands.start import start

        return start()
    except KeyboardInterrupt:
        return INTERRUPTED


def run_game() -> int:
    """Run stillfoot where nobody may see a console: errors are shown in a window of their own.

    Returns its exit code.
    """
    try:
        from engine.commands.start import start_boxed

        return start_boxed()
    except KeyboardInterrupt:
        return INTERRUPTED


if __name__ == "__main__":
    sys.exit(run())
