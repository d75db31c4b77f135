"""`ShownRemarks`: which remarks a set has shown in a row, so that none is said twice alike."""

from __future__ import annotations

from drills.remark import Remark


class ShownRemarks:
    """Remarks that the reveals of a set or a session have shown: the newest topic, and how often.

    Repetitions without a reveal change nothing: their remarks were not read.
    """

    def __init__(self) -> None:
        self._topic: str | None = None
        self._repeats = 0
        self._sentence = ""

    def repeats(self, remark: Remark) -> int:
        """Note that a remark is shown now; returns how many on its topic were shown just before.

        One more where its sentence would be the last one in the same words, if it has others.
        """
        self._repeats = self._repeats + 1 if remark.topic == self._topic else 0
        if remark.sentence(self._repeats) == self._sentence and len(set(remark.sentences)) > 1:
            self._repeats += 1
        self._topic, self._sentence = remark.topic, remark.sentence(self._repeats)
        return self._repeats
