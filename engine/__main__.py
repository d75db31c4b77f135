"""`python -m engine` is `stillfoot`."""

import sys

from engine.commands.main import main

if __name__ == "__main__":
    sys.exit(main())
