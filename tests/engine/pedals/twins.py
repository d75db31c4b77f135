"""Twins as they are listed, bound and found, for the tests that tell them apart."""

from collections.abc import Sequence

from engine.pedals.identity import Connection, Device, Identity, Missing, Model, match

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
