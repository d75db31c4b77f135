"""Progress line of long work: on a terminal only, written at most five times a second."""

from io import StringIO

import pytest

from engine.commands.progress_line import ProgressLine


class Terminal(StringIO):
    """Stream that is a terminal."""

    def isatty(self) -> bool:
        """Always True."""
        return True


class ClosedTerminal(Terminal):
    """A terminal that was closed."""

    def write(self, _: str) -> int:
        """Fail as a pipe without a reader does."""
        raise BrokenPipeError


class Hand:
    """Clock that a test advances."""

    def __init__(self) -> None:
        self.now = 50.0

    def __call__(self) -> float:
        """Time in s."""
        return self.now


def output_of(stream: StringIO, shares: int, seconds: float) -> str:
    """Text written while `shares` equal pieces of work take `seconds` in all."""
    clock = Hand()
    with ProgressLine("Writing", stream, clock) as line:
        for done in range(1, shares + 1):
            clock.now += seconds / shares
            line.tell(done, shares)
    return stream.getvalue()


def test_progress_is_one_line_that_is_cleared_at_the_end() -> None:
    output = output_of(Terminal(), 4, 4.0)

    lines = ["Writing: 25 %", "Writing: 50 %", "Writing: 75 %", "Writing: 100 %"]
    assert output == "".join(f"\r{line}" for line in lines) + f"\r{' ' * 14}\r"


def test_progress_is_written_at_most_five_times_a_second() -> None:
    output = output_of(Terminal(), 1000, 2.0)

    assert 8 <= output.count("%") <= 11


def test_an_unchanged_line_is_not_written_again() -> None:
    stream, clock = Terminal(), Hand()

    with ProgressLine("Writing", stream, clock) as line:
        for _ in range(3):
            clock.now += 1.0
            line.tell(1, 3)

    assert stream.getvalue().count("33 %") == 1


def test_nothing_is_written_if_the_stream_is_no_terminal() -> None:
    assert output_of(StringIO(), 4, 4.0) == ""


@pytest.mark.parametrize("stream", [None, ClosedTerminal()])
def test_work_goes_on_without_a_terminal(stream: StringIO | None) -> None:
    with ProgressLine("Writing", stream, Hand()) as line:
        line.tell(1, 2)

    assert stream is None or stream.getvalue() == ""


def test_a_closed_stream_raises_nothing() -> None:
    stream = Terminal()
    stream.close()

    with ProgressLine("Writing", stream, Hand()) as line:
        line.tell(1, 2)


def test_work_of_no_pieces_divides_by_nothing() -> None:
    stream = Terminal()

    with ProgressLine("Writing", stream, Hand()) as line:
        line.tell(0, 0)

    assert "0 %" in stream.getvalue()
