"""SQL that puts measures beside their repetitions in a query."""

from __future__ import annotations

from collections.abc import Sequence


def joined_measures(names: Sequence[str]) -> str:
    """SQL after `FROM repetition` that joins measures to it, each as a table of its name.

    The value of the dip is `dip.value`; NULL where the repetition has none.
    """
    return "".join(
        f" LEFT JOIN measure AS {name} ON {name}.repetition = repetition.id"
        f" AND {name}.name = (SELECT id FROM measure_name WHERE name = '{name}')"
        for name in names
    )
