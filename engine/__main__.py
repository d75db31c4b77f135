"""`python -m engine` is `stillfoot`."""

import sys


def run() -> int:
    """Run stillfoot with the arguments of the process; its exit code.

    What it is made of is loaded here, as a player may think better of it before that is done.
    """
    try:
        from engine.commands.main import main

        return main()
    except KeyboardInterrupt:
        return 130


if __name__ == "__main__":
    sys.exit(run())
