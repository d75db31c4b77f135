"""Sentences of a page of the history, in the order in which they are read."""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True)
class PageWords:
    """Sentences of a page: the answer to its question, a line beside it, and all other figures."""

    lead: str = ""
    """The sentence that answers the question of the page; empty while there is nothing to say."""
    line: str = ""
    """A second, quiet line above the picture; may be empty."""
    figures: tuple[str, ...] = ()
    """Everything else there is to say, a sentence or two each, for those who ask for it."""

    @property
    def sentences(self) -> list[str]:
        """All sentences, the most telling first."""
        return [text for text in (self.lead, self.line, *self.figures) if text]
