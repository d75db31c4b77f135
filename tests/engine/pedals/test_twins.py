"""Property of twins: no plugging or unplugging moves a pedal to another pedal's device."""

from dataclasses import dataclass, field

from hypothesis import given
from hypothesis import strategies as st

from engine.pedals.identity import Connection, Device, Missing, match
from tests.engine.pedals.twins import connected, ids, listed, places


@dataclass
class Desk:
    """Twins of which the first are bound; SDL may list a new one at any place."""

    twins: int
    plugged: list[tuple[int, int]] = field(default_factory=list)
    """Number and instance id of each plugged twin, in SDL's order."""
    last_id: int = 0
    """Last instance id that was given."""

    def plug(self, twin: int, place: int) -> None:
        """Plug a twin in, with a new instance id."""
        self.last_id += 1
        self.plugged.insert(place % (len(self.plugged) + 1), (twin, self.last_id))

    def toggle(self, twin: int, place: int) -> None:
        """Plug a twin in if it is out, or out if it is in."""
        if twin in self.there:
            self.plugged = [entry for entry in self.plugged if entry[0] != twin]
        else:
            self.plug(twin, place)

    @property
    def there(self) -> dict[int, int]:
        """Instance id of each twin that is plugged in."""
        return dict(self.plugged)

    @property
    def devices(self) -> list[Device]:
        """Devices in SDL's order."""
        return listed(*(instance for _, instance in self.plugged))


def desk(twins: int) -> Desk:
    """All twins plugged in, in order."""
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
