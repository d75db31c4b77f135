"""`ShownRemarks`: which remarks a set has shown, so that nothing is said twice alike in a row."""

from __future__ import annotations

from collections import Counter

from drills.remark import Remark


class ShownRemarks:
    """Remarks that the reveals of a set or a session have shown, by topic.

    Repetitions without a reveal change nothing: their remarks were not read.
    """

    def __init__(self) -> None:
        self._shown: Counter[str] = Counter()
        self._topic = self._sentence = self._cue = ""

    def repeats(self, remark: Remark) -> int:
        """Note that a remark is shown now; returns after how many on its topic it stands.

        More where the sentence, or the cue for another topic, would be the last one in the same
        words and there are others.
        """
        first = self._shown[remark.topic]
        wordings = range(first, first + len(remark.sentences) * (len(remark.cues) or 1) + 1)
        fresh = (count for count in wordings if not self._is_said(remark, count))
        count = next(fresh, first)
        self._shown[remark.topic] = count + 1
        self._topic = remark.topic
        self._sentence, self._cue = remark.sentence(count), remark.cue(count)
        return count

    def _is_said(self, remark: Remark, count: int) -> bool:
        """Whether the newest remark had this sentence, or this cue for another topic."""
        if remark.sentence(count) == self._sentence:
            return True
        return remark.topic != self._topic and "" != remark.cue(count) == self._cue
