"""Prints every text that a player can read, by room and file with its line, and checks them.

    python tests/words.py                  # all texts, to be read in one go
    python tests/words.py engine/five      # those of one room
    python tests/words.py --check          # only what breaks a rule, of all rooms

The rules: at most 12 words a sentence, one word for one thing, and no sentence written down in two
rooms. What stands in braces is filled in, and counts as one word.
"""

import re
import sys
from collections import defaultdict
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from pathlib import Path

if __name__ == "__main__":
    sys.path.insert(0, str(Path(__file__).resolve().parents[1]))

from tests.player_texts import Text, player_texts

MOST_WORDS = 12
"""Words of the longest sentence that is read at a glance."""
FILLED_IN = re.compile(r"\{[^{}]*(\{[^{}]*\}[^{}]*)*\}")
"""What is filled in, in braces."""
ENDS = re.compile(r"(?<=[.?!:;])\s+|\n|, found\b")
"""Where a sentence ends: at a stop, a colon or a line's end. In a line on bad input what was found
is a statement of its own."""
BANNED = {
    r"anew": "again",
    r"back over": "overshoot",
    r"by luck alone|by lot|drawn by lot": "by chance, at random",
    r"mixed in": "revision",
    r"^learning$|being learned|level to learn": "new",
    r"asked again|show(n)? (it )?again": "check-up",
    r"kept well": "well retained",
    r"kept": "retained, or saved",
    r"middle of them|their middle|median": "typical",
    r"steady in|^off in": "settled in, released in",
    r"did not count|does not count|do not count": "what happened to it",
    r"way ±": "line",
    r"less (?=[AB]\b)": "minus",
    r"missed most": "most often missed",
    r"all was": "what was",
    r"sitting": "session",
    r"within what this level allows": "a value and its limit",
    r"no more than it may": "a value and its limit",
    r"measured otherwise": "what it is measured against",
    r"carry over|carries over": "transfer",
    r"likely between": "likely 1 to 7",
}
"""Words that are not used, as patterns of whole words in any case, and the word to use."""
ALLOWED = {
    ("drills", "kept"): "a foot has kept the brake",
    ("engine/practice", "mixed in"): "the stored value; its words are revision",
}
"""Rooms in which a banned word has another meaning, each with its reason."""
LONG_ALLOWED = {
    "every column of a trace": "an error of the program itself, which no file can cause",
    "every pedal of a trace": "an error of the program itself, which no file can cause",
}
"""Beginnings of sentences that may be longer, each with its reason."""
NAMES_ONLY = ("levels", "README")
"""Rooms that repeat the names of screens and levels, so that the reader finds them there."""
STOPS = (".", "?", "!", ":")
"""Ends of sentences. Names of choices, screens and states have none, and stand in many rooms."""


@dataclass(frozen=True)
class Fault:
    """One rule that a text breaks."""

    text: Text
    """The text."""
    why: str
    """What is wrong with it."""


def sentences(text: str) -> Iterator[str]:
    """Sentences of a text, what is filled in standing as one word in braces."""
    for part in ENDS.split(FILLED_IN.sub("{}", text)):
        if part and part.strip():
            yield part.strip()


def words(sentence: str) -> int:
    """Number of words in a sentence; marks that stand alone are none."""
    return sum(bool(re.search(r"[\w{]", word)) for word in sentence.split())


def faults(texts: Sequence[Text]) -> Iterator[Fault]:
    """Every rule that a text breaks, in order of the texts."""
    rooms = _rooms(texts)
    for text in texts:
        for sentence in sentences(text.text):
            count = words(sentence)
            if count > MOST_WORDS and not sentence.startswith(tuple(LONG_ALLOWED)):
                yield Fault(text, f"{count} words: {sentence}")
        plain = FILLED_IN.sub("{}", text.text)
        for pattern, better in BANNED.items():
            found = re.search(rf"(?<![\w-])({pattern})(?!\w)", plain, re.IGNORECASE)
            if found and (text.room, pattern) not in ALLOWED:
                yield Fault(text, f"{found[0]!r}: say {better}")
        others = rooms[text.text] - {text.room}
        if others and text.room not in NAMES_ONLY and plain.endswith(STOPS):
            yield Fault(text, f"also in {', '.join(sorted(others))}: {text.text}")


def _rooms(texts: Sequence[Text]) -> dict[str, set[str]]:
    """Rooms that each text stands in."""
    rooms: defaultdict[str, set[str]] = defaultdict(set)
    for text in texts:
        if text.room not in NAMES_ONLY:
            rooms[text.text].add(text.room)
    return rooms


def main(arguments: Sequence[str]) -> int:
    """Print the texts or what is wrong with them; 1 where a check finds anything."""
    texts = list(player_texts())
    asked = [one for one in arguments if not one.startswith("-")]
    if "--check" in arguments:
        found = [one for one in faults(texts) if not asked or one.text.room in asked]
        for fault in found:
            print(f"{fault.text.file}:{fault.text.line}: {fault.why}")
        return 1 if found else 0
    file = ""
    for text in texts:
        if asked and text.room not in asked:
            continue
        if text.file != file:
            file = text.file
            print(f"\n{text.room}: {file}" if text.room != file else f"\n{file}")
        print(f"{text.line:5}  {text.text}")
    return 0


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
