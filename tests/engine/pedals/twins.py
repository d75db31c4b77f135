"""Helpers for tests with twins: listed, bound and matched devices."""

from collections.abc import Sequence

from engine.pedals.identity import Connection, Device, Identity, Missing, Model, match

PEDALS = Model("0300beef", "Pedals", 3)
OTHERS = Model("0300cafe", "Pedals", 3)


def listed(*ids: int, model: Model = PEDALS) -> list[Device]:
    """Twins in SDL's order, with their identities in it."""
    return [
        Device(id, Identity(*model, ordinal=place, twins=len(ids))) for place, id in enumerate(ids)
    ]


def places(*ordinals: int, twins: int, model: Model = PEDALS) -> list[Identity]:
    """Identities of bound twins, by their places among all twins."""
    return [Identity(*model, ordinal=ordinal, twins=twins) for ordinal in ordinals]


def connected(bound: Sequence[Identity], plugged: Sequence[Device]) -> Connection:
    """First connection of the bound devices, which must succeed."""
    connection = match(bound, plugged, None)
    assert isinstance(connection, Connection)
    return connection


def ids(bound: Sequence[Identity], connection: Connection | Missing) -> list[int] | Missing:
    """Instance id of each bound device."""
    if isinstance(connection, Missing):
        return connection
    return [connection.ids[identity] for identity in bound]
