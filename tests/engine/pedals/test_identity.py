"""Telling devices apart: twins, strangers, replugged ones, and names that cannot be shown."""

from collections.abc import Sequence
from dataclasses import dataclass, field

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

PEDALS = Model("0300beef", "Pedals", 3)
OTHERS = Model("0300cafe", "Pedals", 3)


def listed(*ids: int, model: Model = PEDALS) -> list[Device]:
    """Twins in the order SDL lists them, with the identities they have there."""
    return [
        Device(id, Identity(*model, ordinal=place, twins=len(ids))) for place, id in enumerate(ids)
    ]


def places(*ordinals: int, twins: int, model: Model = PEDALS) -> list[Identity]:
    """Bound twins by their place among so many."""
    return [Identity(*model, ordinal=ordinal, twins=twins) for ordinal in ordinals]


def connected(bound: Sequence[Identity], plugged: Sequence[Device]) -> Connection:
    """The first connection of bound devices, which must succeed."""
    connection = match(bound, plugged, None)
    assert isinstance(connection, Connection)
    return connection


def ids(bound: Sequence[Identity], connection: Connection | Missing) -> list[int] | Missing:
    """The device that each bound one is."""
    if isinstance(connection, Missing):
        return connection
    return [connection.ids[identity] for identity in bound]


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


def test_a_stranger_that_was_out_and_is_back_leaves_no_doubt() -> None:
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


def test_a_stranger_of_one_model_that_is_out_casts_no_doubt_on_another_model() -> None:
    bound = places(0, twins=2) + places(0, twins=1, model=OTHERS)
    before = connected(bound, listed(1, 2) + listed(3, model=OTHERS))

    back = match(bound, listed(1) + listed(4, model=OTHERS), before)

    assert ids(bound, back) == [1, 4]


@dataclass
class Desk:
    """Twins on a desk, the first of them bound; SDL lists one that comes at any place."""

    twins: int
    plugged: list[tuple[int, int]] = field(default_factory=list)
    """Which twin, and its instance id, in the order of the list."""
    last_id: int = 0
    """The instance id given last."""

    def plug(self, twin: int, place: int) -> None:
        """Plug one in; it gets a new id."""
        self.last_id += 1
        self.plugged.insert(place % (len(self.plugged) + 1), (twin, self.last_id))

    def toggle(self, twin: int, place: int) -> None:
        """Plug it in where it is out, and out where it is in."""
        if twin in self.there:
            self.plugged = [entry for entry in self.plugged if entry[0] != twin]
        else:
            self.plug(twin, place)

    @property
    def there(self) -> dict[int, int]:
        """The instance id of each twin that is plugged in."""
        return dict(self.plugged)

    @property
    def devices(self) -> list[Device]:
        """What is listed."""
        return listed(*(instance for _, instance in self.plugged))


def desk(twins: int) -> Desk:
    """A desk with every twin plugged in, in order."""
    full = Desk(twins)
    for twin in range(twins):
        full.plug(twin, twin)
    return full


TWINS = st.sampled_from([(2, 1), (2, 2), (3, 1), (3, 2), (3, 3)])
MOVES = st.lists(st.tuples(st.integers(0, 2), st.integers(0, 2)), max_size=12)


@given(twins=TWINS, moves=MOVES)
def test_twins_unplugged_and_replugged_one_at_a_time_are_all_found_again(
    twins: tuple[int, int], moves: list[tuple[int, int]]
) -> None:
    count, ours = twins
    bound = places(*range(ours), twins=count)
    here = desk(count)
    connection = connected(bound, here.devices)

    for twin, place in moves:
        if twin >= count:
            continue
        here.toggle(twin, place)
        without = match(bound, here.devices, connection)
        assert (without is Missing.ABSENT) == (twin < ours)
        connection = connection if isinstance(without, Missing) else without
        here.toggle(twin, place)
        again = match(bound, here.devices, connection)
        assert ids(bound, again) == [here.there[one] for one in range(ours)]
        assert isinstance(again, Connection)
        connection = again


@given(twins=TWINS, moves=MOVES)
def test_no_sequence_of_plugs_and_unplugs_puts_a_pedal_on_another_ones_device(
    twins: tuple[int, int], moves: list[tuple[int, int]]
) -> None:
    count, ours = twins
    bound = places(*range(ours), twins=count)
    here = desk(count)
    connection = connected(bound, here.devices)

    for twin, place in moves:
        if twin >= count:
            continue
        here.toggle(twin, place)
        found = match(bound, here.devices, connection)
        if isinstance(found, Connection):
            assert ids(bound, found) == [here.there.get(one) for one in range(ours)]
            connection = found
        elif found is Missing.ABSENT:
            assert not all(one in here.there for one in range(ours))


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
def test_a_name_is_shown_in_one_line_of_what_can_be_shown(name: str, shown: str) -> None:
    assert printable(name) == shown


@given(name=st.text())
def test_every_name_is_made_printable_and_never_blank(name: str) -> None:
    shown = printable(name)

    assert shown.isprintable()
    assert shown.strip()
    assert printable(shown) == shown
    assert shown in (name, UNNAMED) or not name.isprintable()
