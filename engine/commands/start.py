"""Start of a process of stillfoot: it listens to signals first, and loads the program then."""

from engine.commands.loading import loading
from engine.commands.stopping import Stopping, exit_code_of


def start() -> int:
    """Run stillfoot with the arguments of the process; return the exit code."""
    return exit_code_of(_run)


def start_boxed() -> int:
    """Run stillfoot where nobody may see a console; return the exit code."""
    return exit_code_of(_run_boxed)


def _run(stopping: Stopping) -> int:
    with loading():
        from engine.commands.main import main

    return main(stopping=stopping)


def _run_boxed(stopping: Stopping) -> int:
    from engine.commands.boxed import run_boxed

    return run_boxed(stopping)
