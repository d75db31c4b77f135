"""Two set-ups of a trial: whether they differ, in what, and what each is called."""

from __future__ import annotations

from dataclasses import replace
from enum import StrEnum

from engine.trial.trial import SetUp

NAME_MOST = 30
"""count of characters of a name: it stands in sentences."""
NOTE_MOST = 60
"""count of characters of a note: one line of a screen."""
NAMED_BY = 2
"""count of things that differ which make a name: a set-up with more is told by the first."""
AS_NOW = "as I do it now"
"""What a set-up is called that differs in its name alone."""


def parts(one: SetUp) -> tuple[StrEnum, ...]:
    """The things that a set-up says, in the order they are asked."""
    return one.ball, one.heel, one.shoes, one.spacing


def set_up_words(one: SetUp) -> tuple[str, ...]:
    """The same for a person, such as "toes on the brake"."""
    return (f"{one.ball.value} on the brake", *(part.value for part in parts(one)[1:]))


def changed(one: SetUp, before: SetUp) -> tuple[bool, ...]:
    """Of each thing that a set-up says, whether it is another than before."""
    return tuple(now != then for now, then in zip(parts(one), parts(before), strict=True))


def differ(a: SetUp, b: SetUp) -> bool:
    """Whether two set-ups can be told apart: by what they say, or by the second's own name."""
    return any(changed(a, b)) or b.name not in ("", a.name)


def named(a: SetUp, b: SetUp) -> tuple[SetUp, SetUp]:
    """The two, each that has no name called by what differs."""
    return _named(a, b), _named(b, a)


def _named(one: SetUp, other: SetUp) -> SetUp:
    if one.name:
        return one
    differing = [
        part.value for part, is_new in zip(parts(one), changed(one, other), strict=True) if is_new
    ]
    return replace(one, name=", ".join(differing[:NAMED_BY]) or AS_NOW)
