"""`ExampleValues`: what a kind has its example level say, where any value of a key would not do."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field


@dataclass(frozen=True)
class ExampleValues:
    """Names and values of an example level; what is left out is made up from the kind's keys."""

    id: str = ""
    """Id of the level; empty for one made of the name of its kind."""
    title: str = ""
    """Title of the level; empty for one made of the name of its kind."""
    purpose: str = ""
    """What the level trains, one line; empty for a line to be replaced."""
    targets: tuple[float, ...] = (60, 50)
    """Brake targets of the level, in %."""
    own: Mapping[str, float] = field(default_factory=dict)
    """Values of the kind's keys, by key path and in their units."""
    listed: Mapping[str, tuple[float, ...]] = field(default_factory=dict)
    """Numbers of the kind's keys that list some, by key path; they stand there as a comment."""
    limits: Mapping[str, float] = field(default_factory=dict)
    """Limits of the level, by measure and in its unit; empty to limit the most telling measure."""
