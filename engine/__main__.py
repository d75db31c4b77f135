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


if __name__ == "__main__":
    sys.exit(run())
