"""Sentence about the brake's scale, on which everything told over days begins again."""

from __future__ import annotations

from engine.date_words import dated_words
from engine.practice.changes import Changed
from engine.progress.progress import Progress


def scale_words(progress: Progress) -> list[str]:
    """Sentence that says since when the brake has its scale; none where it never changed."""
    scales = [change.at for change in progress.changes if change.what is Changed.SCALE]
    return [
        f"New brake scale since {dated_words(at.date(), progress.today)}." for at in scales[-1:]
    ]
