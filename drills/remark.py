"""Remark: what is said of one repetition, in wordings that change from one to the next."""

from __future__ import annotations

from dataclasses import dataclass

LIKE = 2
"""Remarks on the same fault after which another cue is given for it, as a count."""


@dataclass(frozen=True)
class Headline:
    """The one figure that a reveal shows large, with its limit."""

    value: str
    """Number with its sign, such as "22", or a short word such as "none"."""
    words: str
    """What the number is, with its unit and limit: "points dipped, 15 allowed"."""


@dataclass(frozen=True)
class Remark:
    """What a repetition did, and what to change: one topic, in several wordings."""

    topic: str
    """What it is about, such as a measure or an outcome; like faults have the same topic."""
    sentences: tuple[str, ...]
    """What the brake did, in one or more wordings that are taken in turn."""
    cues: tuple[str, ...] = ()
    """What to attend to next time, the best first; empty for nothing."""
    stays: int = LIKE
    """Number of remarks on the same topic for which a cue stays the same, as a count."""

    def sentence(self, repeats: int = 0) -> str:
        """Sentence of this remark after `repeats` remarks on the same topic."""
        return self.sentences[repeats % len(self.sentences)]

    def cue(self, repeats: int = 0) -> str:
        """Cue of this remark after `repeats` remarks on the same topic; may be empty."""
        return self.cues[repeats // self.stays % len(self.cues)] if self.cues else ""
