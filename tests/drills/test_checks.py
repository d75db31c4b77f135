"""Checks of values from outside: what they take, and the one line they refuse it with."""

from collections.abc import Callable

import pytest

from drills.checks import Checks, ValueRefusal, cut, one_line, show

CHECKS = Checks(ValueRefusal)


@pytest.mark.parametrize(
    ("check", "value"),
    [
        (lambda value: CHECKS.whole("n", value, 1, 3), 3),
        (lambda value: CHECKS.whole("n", value, 1), 1),
        (lambda value: CHECKS.number("x", value, -1, 1), -1.0),
        (lambda value: CHECKS.text("name", value), ""),
        (lambda value: CHECKS.truth("on", value), False),
        (lambda value: CHECKS.choice("size", value, ("big", "small")), "small"),
    ],
)
def test_a_value_that_is_as_expected_is_returned(
    check: Callable[[object], object], value: object
) -> None:
    assert check(value) == value


@pytest.mark.parametrize(
    ("check", "value", "line"),
    [
        (
            lambda v: CHECKS.whole("n", v, 1, 3),
            4,
            "n: expected a whole number from 1 to 3, found 4",
        ),
        (lambda v: CHECKS.whole("n", v, 1), 0, "n: expected a whole number of at least 1, found 0"),
        (
            lambda v: CHECKS.whole("n", v, 1),
            True,
            "n: expected a whole number of at least 1, found True",
        ),
        (
            lambda v: CHECKS.number("x", v, -1, 1),
            1.5,
            "x: expected a number from -1 to 1, found 1.5",
        ),
        (
            lambda v: CHECKS.number("x", v, 0, 1),
            False,
            "x: expected a number from 0 to 1, found False",
        ),
        (
            lambda v: CHECKS.number("x", v, 0, 1),
            float("nan"),
            "x: expected a number from 0 to 1, found nan",
        ),
        (lambda v: CHECKS.text("name", v), 5, "name: expected text, found 5"),
        (lambda v: CHECKS.text("day", v, "a date"), None, "day: expected a date, found None"),
        (lambda v: CHECKS.truth("on", v), 1, "on: expected true or false, found 1"),
        (lambda v: CHECKS.choice("size", v, ("big",)), [], "size: expected one of big, found []"),
    ],
)
def test_a_value_that_is_not_is_refused_by_where_expected_and_found(
    check: Callable[[object], object], value: object, line: str
) -> None:
    with pytest.raises(ValueRefusal) as refused:
        check(value)

    assert str(refused.value) == line


def test_a_mistake_in_all_of_the_data_names_no_place() -> None:
    assert one_line("", "a table", "a list") == "expected a table, found a list"


def test_a_long_value_is_shown_by_its_beginning() -> None:
    assert show("x" * 58) == f"'{'x' * 58}'"
    assert show("x" * 59) == f"'{'x' * 56}..."
    assert show(12345, 4) == "1..."
    assert show(10**5000) == "a value too large to show"


def test_a_value_is_shown_as_python_writes_it() -> None:
    value = {"a": [1, 2.5, {"b": "c"}, []], "d": {}, "e": [None, True]}

    assert show(value, 100) == repr(value)


def test_of_a_value_nested_deeply_the_beginning_is_shown() -> None:
    lists: list[object] = []
    tables: dict[str, object] = {}
    for _ in range(100_000):
        lists, tables = [lists], {"x": tables}

    assert show(lists) == "[" * 57 + "..."
    assert show(tables) == "{'x': " * 9 + "{'x" + "..."


def test_what_cannot_be_printed_is_shown_as_an_escape() -> None:
    assert cut("a\nbé\ud800") == "a\\nbé\\ud800"
