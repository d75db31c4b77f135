"""A history of some days whose tables have several pages each, and where its rows lie in its file.

Where they lie is known without any reader of the file format: by searching its bytes.
"""

from dataclasses import replace
from datetime import timedelta
from pathlib import Path

import numpy as np

from drills.score import Reason, Verdict
from engine.drill.saved import keep_guess
from engine.five.saved import begin_session, end_session
from engine.practice.results import Purpose, SessionKind
from engine.store import open_history
from engine.store.repetitions import add_repetition
from tests.made import record, trace
from tests.store.whole import AT, make

COUNT = 60
"""Repetitions in the history."""
A_DAY = 10
"""Repetitions on each of its days."""
PAGE = 1024
"""Bytes of its pages."""
NAMES = ("dip", "rebound", "settle", "total_error", "surge", "early")


def make_longer(folder: Path, count: int = COUNT) -> None:
    """A history with something of everything, and many repetitions that differ."""
    make(folder)
    rng = np.random.default_rng(5)
    usual = trace()
    with open_history(folder, []) as history:
        for number in range(count):
            day = AT + timedelta(days=10 + number // A_DAY)
            if number % A_DAY == 0:
                session = begin_session(history, SessionKind.FIVE, day, 5.0, number)
            at = day + timedelta(milliseconds=int(rng.integers(1, 10**6)))
            values = {name: float(rng.random()) for name in NAMES}
            verdict = Verdict(Reason.CLEAN, float(90 * rng.random()), (), values)
            # Every third trace is stored as counts, the others as percentages that differ.
            other = replace(
                usual, brake=usual.brake + rng.normal(0, 1, len(usual.time)), counts=None
            )
            stored = add_repetition(
                history,
                record(
                    at=at,
                    verdict=verdict,
                    trace=usual if number % 3 == 0 else other,
                    session=session,
                    why=Purpose.DUE,
                    took=float(rng.random()),
                ),
            )
            if number % 7 == 0:
                keep_guess(history, stored, float(rng.random()), "dip")
            if number % A_DAY == A_DAY - 1:
                end_session(history, session)


def page_of(data: bytes, part: bytes) -> int | None:
    """Number of the page, from 0, where some bytes lie; None if they lie nowhere or twice."""
    at = data.find(part)
    if at < 0 or data.find(part, at + 1) >= 0 or at // PAGE != (at + len(part) - 1) // PAGE:
        return None
    return at // PAGE


def pages_of(data: bytes, part: bytes, step: int = 16) -> set[int] | None:
    """Numbers of all pages, from 0, over which some bytes are spread; None if that is not known.

    Each page must have a good part of them.
    """
    pieces = [part[at : at + step] for at in range(0, len(part) - step, step)]
    found = [page_of(data, piece) for piece in pieces]
    known = {page for page in found if page is not None}
    # Between two pages one piece is cut; more that are missing were found twice.
    return known if found.count(None) <= len(known) else None
