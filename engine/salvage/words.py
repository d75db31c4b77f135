"""Sentences on a repair of the history, for the window and the terminal."""

from __future__ import annotations

from datetime import date
from pathlib import Path

from engine.date_words import dated_words
from engine.salvage.loss import Loss
from engine.salvage.repair import Repair
from engine.store.copies import day_of

_SINGLE = {"sessions": "session", "guesses": "guess"}
"""Words for one of a thing where they are not the plural without its last letter."""
_UNKNOWN = "The newest repetitions may be missing"
"""What is said where the end of the history cannot be read, and nothing before it is missing."""


def words_of(repair: Repair) -> list[str]:
    """What was lost, from when, and where both files are, a sentence each; none if all was well."""
    if repair.aside is None:
        return []
    lost = lost_words(repair.loss, repair.day)
    rest = "What could be read is"
    if repair.loss.is_all:
        rest = "What the copy had is" if repair.loss.filled else "A new history begins"
    return [
        *(lost or ["Nothing is lost."]),
        f"The damaged file is now {repair.aside.name}.",
        f"{rest} in {repair.history.name}.",
    ]


def lost_words(loss: Loss, today: date) -> list[str]:
    """What could not be read of a damaged history, a sentence each; none if nothing is lost."""
    if loss.is_all:
        return _nothing_read(loss, today)
    return [*_repetitions(loss, today), *_parts(loss)]


def _nothing_read(loss: Loss, today: date) -> list[str]:
    """Sentences on a file of which nothing could be read, and on the copy that took its place."""
    words = ["Nothing in the history can be read."]
    for copy, number in loss.filled.items():
        words.append(f"{_count(number, 'repetitions')} came from {_name(copy, today)}.")
    return [*words, "What came after that copy is lost."] if loss.filled else words


def _repetitions(loss: Loss, today: date) -> list[str]:
    """Sentences on repetitions that cannot be read, and on those that came from copies."""
    words = []
    if loss.repetitions:
        when = _when(loss.first, loss.last, today)
        words.append(f"{_count(loss.repetitions, 'repetitions')}{when} cannot be read")
    for copy, number in loss.filled.items():
        words.append(f"{_of_them(number, loss.repetitions)} came from {_name(copy, today)}")
    if loss.is_open:
        too = " too" if loss.repetitions > sum(loss.filled.values()) else ""
        words.append(f"Later ones may be missing{too}" if loss.repetitions else _UNKNOWN)
    return [f"{sentence}." for sentence in words]


def _parts(loss: Loss) -> list[str]:
    """Sentences on what else is lost."""
    words = []
    if loss.traces:
        words.append(f"{_count(loss.traces, 'curves')} cannot be read; the verdicts stay.")
    if loss.measures:
        words.append(f"{_count(loss.measures, 'repetitions')} lost all figures but the score.")
    words += [f"{_count(number, thing)} cannot be read." for thing, number in loss.others.items()]
    if loss.settings:
        names = ", ".join(f"'{name}'" for name in loss.settings)
        words.append(f"{_count(len(loss.settings), 'settings')} cannot be read: {names}.")
    if loss.unsure:
        words.append(f"{_unsure(loss)} may be missing.")
    return words


def _unsure(loss: Loss) -> str:
    """What may be lost beside what is known to be, as the beginning of a sentence."""
    *first, last = loss.unsure
    things = f"{', '.join(first)} and {last}" if first else last
    is_counted = loss.settings or not loss.others.keys().isdisjoint(loss.unsure)
    return f"Other {things}" if is_counted else things.capitalize()


def _name(copy: Path, today: date) -> str:
    """Name of a copy in a sentence: its day, if it has one."""
    day = day_of(copy.name)
    return copy.name if day is None else f"the copy of {dated_words(day, today)}"


def _of_them(number: int, of: int) -> str:
    if number < of:
        return f"{number:,} of them"
    return "It" if of == 1 else "All of them"


def _count(number: int, things: str) -> str:
    thing = _SINGLE.get(things, things.removesuffix("s")) if number == 1 else things
    return f"{number:,} {thing}"


def _when(first: date | None, last: date | None, today: date) -> str:
    """When the lost repetitions were, as far as it is known."""
    if first is not None and first == last:
        return f" of {dated_words(first, today)}"
    if first is not None and last is not None:
        return f" of {dated_words(first, today)} to {dated_words(last, today)}"
    if first is not None:
        return f" from {dated_words(first, today)} on"
    return "" if last is None else f" up to {dated_words(last, today)}"
