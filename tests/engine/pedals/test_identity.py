"""Identities of devices: twins, strangers, replugged devices, and unprintable names."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from engine.pedals.identity import (
    UNNAMED,
    Connection,
    Device,
    Identity,
    Missing,
    Model,
    match,
    printable,
)
from tests.engine.pedals.twins import OTHERS, connected, ids, listed, places


@pytest.mark.parametrize(
    ("bound", "plugged", "found"),
    [
        (places(0, twins=1), listed(7), [7]),
        (places(0, 1, twins=2), listed(7, 5), [7, 5]),
        (places(1, 0, twins=2), listed(7, 5), [5, 7]),
        (places(2, twins=3), listed(7, 5, 6), [6]),
        (places(0, twins=1), listed(4, model=OTHERS) + listed(7), [7]),
        (places(0, twins=1), [], Missing.ABSENT),
        (places(0, twins=1), listed(4, model=OTHERS), Missing.ABSENT),
        (places(0, twins=1), listed(7, 5), Missing.AMBIGUOUS),
        (places(0, 1, twins=2), listed(7), Missing.AMBIGUOUS),
        (places(0, 1, twins=2), listed(7, 5, 6), Missing.AMBIGUOUS),
        (
            places(0, twins=1) + places(0, twins=1, model=OTHERS),
            listed(7, 5),
            Missing.ABSENT,
        ),
    ],
)
def test_at_first_twins_are_told_apart_by_their_place(
    bound: list[Identity], plugged: list[Device], found: list[int] | Missing
) -> None:
    connection = match(bound, plugged, None)

    assert ids(bound, connection) == found


@pytest.mark.parametrize(
    "other",
    [
        Model("0300f00d", "Pedals", 3),
        Model("0300beef", "Wheel", 3),
        Model("0300beef", "Pedals", 4),
    ],
)
def test_devices_that_differ_in_guid_name_or_axes_are_no_twins(other: Model) -> None:
    bound = places(0, twins=1)

    connection = match(bound, listed(5, model=other) + listed(7), None)

    assert ids(bound, connection) == [7]


def test_a_replugged_twin_is_found_though_it_is_now_listed_last() -> None:
    bound = places(0, 1, twins=2)
    before = connected(bound, listed(1, 2))

    gone = match(bound, listed(2), before)
    back = match(bound, listed(2, 3), before)

    assert gone is Missing.ABSENT
    assert ids(bound, back) == [3, 2]


def test_a_replugged_device_that_carries_two_pedals_is_found_for_both() -> None:
    bound = places(0, 0, twins=1)
    before = connected(bound, listed(1))

    back = match(bound, listed(2), before)

    assert ids(bound, back) == [2, 2]


def test_a_stranger_of_the_same_model_is_never_taken_for_a_lost_device() -> None:
    bound = places(0, twins=2)
    before = connected(bound, listed(1, 2))

    gone = match(bound, listed(2), before)
    back = match(bound, listed(2, 3), before)

    assert gone is Missing.ABSENT
    assert ids(bound, back) == [3]


def test_a_stranger_that_comes_and_goes_changes_nothing_while_ours_are_there() -> None:
    bound = places(0, twins=1)
    first = connected(bound, listed(1))

    with_stranger = match(bound, listed(2, 1), first)
    assert isinstance(with_stranger, Connection)
    alone = match(bound, listed(1), with_stranger)

    assert ids(bound, with_stranger) == ids(bound, alone) == [1]


def test_a_stranger_that_came_while_ours_were_there_is_not_taken_later() -> None:
    bound = places(0, twins=1)
    with_stranger = match(bound, listed(2, 1), connected(bound, listed(1)))
    assert isinstance(with_stranger, Connection)

    gone = match(bound, listed(2), with_stranger)

    assert gone is Missing.ABSENT


def test_a_newcomer_is_not_told_apart_from_a_stranger_that_is_out_as_well() -> None:
    bound = places(0, twins=2)
    stranger_out = match(bound, listed(1), connected(bound, listed(1, 2)))
    assert isinstance(stranger_out, Connection)

    both_out = match(bound, [], stranger_out)
    one_back = match(bound, listed(3), stranger_out)
    both_back = match(bound, listed(3, 4), stranger_out)

    assert (both_out, one_back, both_back) == (
        Missing.ABSENT,
        Missing.AMBIGUOUS,
        Missing.AMBIGUOUS,
    )


def test_a_stranger_that_was_unplugged_and_is_back_causes_no_ambiguity() -> None:
    bound = places(0, twins=2)
    out = match(bound, listed(1), connected(bound, listed(1, 2)))
    assert isinstance(out, Connection)
    back = match(bound, listed(1, 3), out)
    assert isinstance(back, Connection)

    replugged = match(bound, listed(3, 4), back)

    assert ids(bound, replugged) == [4]


def test_two_newcomers_for_one_lost_device_cannot_be_told_apart() -> None:
    bound = places(0, twins=1)
    before = connected(bound, listed(1))

    found = match(bound, listed(2, 3), before)

    assert found is Missing.AMBIGUOUS


def test_two_lost_twins_are_not_told_apart_when_both_are_back() -> None:
    bound = places(0, 1, twins=2)
    before = connected(bound, listed(1, 2))

    one_back = match(bound, listed(3), before)
    both_back = match(bound, listed(3, 4), before)

    assert (one_back, both_back) == (Missing.ABSENT, Missing.AMBIGUOUS)


def test_two_lost_devices_of_different_models_are_both_found_again() -> None:
    bound = places(0, twins=1) + places(0, twins=1, model=OTHERS)
    before = connected(bound, listed(1) + listed(2, model=OTHERS))

    back = match(bound, listed(3, model=OTHERS) + listed(4), before)

    assert ids(bound, back) == [4, 3]


def test_an_unplugged_stranger_of_one_model_does_not_affect_another_model() -> None:
    bound = places(0, twins=2) + places(0, twins=1, model=OTHERS)
    before = connected(bound, listed(1, 2) + listed(3, model=OTHERS))

    back = match(bound, listed(1) + listed(4, model=OTHERS), before)

    assert ids(bound, back) == [1, 4]


@pytest.mark.parametrize(
    ("name", "shown"),
    [
        ("Quiet Works Pedals", "Quiet Works Pedals"),
        ("Pédale ☃", "Pédale ☃"),
        ("a\x1b[31mb\n", "a\\x1b[31mb\\n"),
        ("left\u202eright", "left\\u202eright"),
        ("\udcff", "\\udcff"),
        ("", "unnamed device"),
        ("   ", "unnamed device"),
        (" x ", " x "),
    ],
)
def test_a_name_is_made_printable_on_one_line(name: str, shown: str) -> None:
    assert printable(name) == shown


@given(name=st.text())
def test_every_name_is_made_printable_and_never_blank(name: str) -> None:
    shown = printable(name)

    assert shown.isprintable()
    assert shown.strip()
    assert printable(shown) == shown
    assert shown in (name, UNNAMED) or not name.isprintable()


@pytest.mark.parametrize(
    ("name", "ordinal", "twins", "said"),
    [
        ("Pedals", 0, 1, "axis 3 of Pedals"),
        ("Pedals", 1, 2, "axis 3 of Pedals, number 2"),
        ("P" * 40, 0, 1, f"axis 3 of {'P' * 40}"),
        ("P" * 41, 0, 1, f"axis 3 of {'P' * 37}..."),
    ],
)
def test_an_axis_is_named_by_its_number_from_one_and_its_device(
    name: str, ordinal: int, twins: int, said: str
) -> None:
    assert Identity("0" * 28, name, 8, ordinal, twins).called(2) == said
