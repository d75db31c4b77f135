"""Entry point of `python -m engine`, which is the same as `stillfoot`."""

import sys


def run() -> int:
    """Run stillfoot with the arguments of the process; returns its exit code.

    The program is imported here, so that Ctrl+C during the import ends it without a traceback.
    """
    try:
        from engine.commands.main import main

        return main()
    except KeyboardInterrupt:
        return 130


def run_game() -> int:
    """Run stillfoot where nobody may see a console: errors are shown in a window of their own.

    Returns its exit code.
    """
    try:
        from engine.commands.boxed import run_boxed

        return run_boxed()
    except KeyboardInterrupt:
        return 130


if __name__ == "__main__":
    sys.exit(run())
