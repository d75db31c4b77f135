"""The line that says how far work has come: on a terminal, at most five times a second."""

from io import StringIO

import pytest

from engine.commands.progress_line import ProgressLine


class Terminal(StringIO):
    """What a person looks at."""

    def isatty(self) -> bool:
        """It is one."""
        return True


class Gone(Terminal):
    """A terminal that was closed by its owner."""

    def write(self, _: str) -> int:
        """Fail as a pipe does that nobody reads."""
        raise BrokenPipeError


class Hand:
    """A clock that goes on when it is told to."""

    def __init__(self) -> None:
        self.now = 50.0

    def __call__(self) -> float:
        """s."""
        return self.now


def output_of(stream: StringIO, shares: int, seconds: float) -> str:
    """What is written where so many equal shares take so many s."""
    clock = Hand()
    with ProgressLine("Writing", stream, clock) as line:
        for done in range(1, shares + 1):
            clock.now += seconds / shares
            line.tell(done, shares)
    return stream.getvalue()


def test_it_is_one_line_that_is_cleared_at_the_end() -> None:
    output = output_of(Terminal(), 4, 4.0)

    lines = ["Writing: 25 %", "Writing: 50 %", "Writing: 75 %", "Writing: 100 %"]
    assert output == "".join(f"\r{line}" for line in lines) + f"\r{' ' * 14}\r"


def test_it_is_written_five_times_a_second_at_most() -> None:
    output = output_of(Terminal(), 1000, 2.0)

    assert 8 <= output.count("%") <= 11


def test_nothing_new_is_not_written() -> None:
    stream, clock = Terminal(), Hand()

    with ProgressLine("Writing", stream, clock) as line:
        for _ in range(3):
            clock.now += 1.0
            line.tell(1, 3)

    assert stream.getvalue().count("33 %") == 1


def test_where_nobody_looks_nothing_is_written() -> None:
    assert output_of(StringIO(), 4, 4.0) == ""


@pytest.mark.parametrize("stream", [None, Gone()])
def test_work_goes_on_without_a_terminal(stream: StringIO | None) -> None:
    with ProgressLine("Writing", stream, Hand()) as line:
        line.tell(1, 2)

    assert stream is None or stream.getvalue() == ""


def test_a_stream_that_is_closed_is_left_alone() -> None:
    stream = Terminal()
    stream.close()

    with ProgressLine("Writing", stream, Hand()) as line:
        line.tell(1, 2)


def test_work_of_nothing_is_no_division() -> None:
    stream = Terminal()

    with ProgressLine("Writing", stream, Hand()) as line:
        line.tell(0, 0)

    assert "0 %" in stream.getvalue()
