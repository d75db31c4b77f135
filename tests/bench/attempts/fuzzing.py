"""Inputs that nobody meant: odd words and numbers, and texts that are nearly right."""

import json
import random
from collections.abc import Callable, Sequence

NUMBERS = (
    *("0", "-0", "-1", "1", "1e308", "1e-320", "nan", "inf", "-inf", "0x10", "1_000", "٣", "½"),
    *("9223372036854775808", "99999999999999999999999999", "1.5", "1,5", "1e999", "+7", ".", "08"),
)
"""Numbers and what might be taken for one."""
LETTERS = "aZ0 \t\n\r\0\x1b\x7f'\"\\=,;[]{}()#%&$~äß中\u202e\u2066\u200d\ufeff\U0001f9b6\udcff"
"""Characters that files, terminals and parsers stumble over; none separates folders."""
WORDS = (
    *("", " ", "--", "-", "con", "nul.txt", "x" * 300, "2024-02-30", "2024-05-17", "today", "None"),
    *("2024-05-17T25:00", "0000-00-00", "99999-01-01", "yesterday", "640x360", "1x1", "x", "0x0"),
    *("99999x99999", "blip-1-first", "frozen", "time", "brake", "true", "[]", "{}", "1:2"),
)
"""Words that some option takes, some nearly."""
JSON_VALUES: tuple[object, ...] = (
    *(None, True, -1, 0, 2**63, 2**200, 1e308, "", "x", "\u202e", "2024-05-17", [], {}, [[]]),
    *([None], {"": None}, {"name": []}, [0.5, "a"], [1] * 50),
)
"""Values in the place of any value of a setting."""


def text(rng: random.Random, longest: int = 30) -> str:
    """A text of characters that somebody stumbles over."""
    return "".join(rng.choice(LETTERS) for _ in range(rng.randint(0, longest)))


def word(rng: random.Random) -> str:
    """One word of a command line: a number, a word, or any text."""
    return rng.choice((rng.choice(NUMBERS), rng.choice(WORDS), text(rng)))


def changed(sound: str, rng: random.Random, most: int = 3) -> str:
    """A text that was right, changed in one to so many places."""
    for _ in range(rng.randint(1, most)):
        sound = rng.choice(CHANGES)(sound, rng)
    return sound


def cut_out(sound: str, rng: random.Random) -> str:
    """Leave some characters out."""
    begin = rng.randrange(len(sound) + 1)
    return sound[:begin] + sound[begin + rng.randint(1, 20) :]


def put_in(sound: str, rng: random.Random) -> str:
    """Put some text in."""
    place = rng.randrange(len(sound) + 1)
    return sound[:place] + word(rng) + sound[place:]


def other_number(sound: str, rng: random.Random) -> str:
    """Put another number in the place of one."""
    digits = [place for place, letter in enumerate(sound) if letter.isdigit()]
    if not digits:
        return sound
    begin = end = rng.choice(digits)
    while end < len(sound) and sound[end] in "0123456789.e-":
        end += 1
    return sound[:begin] + rng.choice(NUMBERS) + sound[end:]


def other_lines(sound: str, rng: random.Random) -> str:
    """Repeat a line, leave one out, or exchange two."""
    lines = sound.split("\n")
    one, two = rng.randrange(len(lines)), rng.randrange(len(lines))
    match rng.randrange(3):
        case 0:
            lines.insert(one, lines[two])
        case 1:
            del lines[one]
        case _:
            lines[one], lines[two] = lines[two], lines[one]
    return "\n".join(lines)


def ended(sound: str, rng: random.Random) -> str:
    """Cut the end off."""
    return sound[: rng.randrange(len(sound) + 1)]


CHANGES: Sequence[Callable[[str, random.Random], str]] = (
    *(cut_out, put_in, other_number, other_number, other_lines, ended),
)
"""Ways to change a text."""


def encoded(content: str, rng: random.Random) -> bytes:
    """Bytes of a file: UTF-8 mostly, at times another encoding or with bytes that are none."""
    raw = content.encode("utf-8", "surrogatepass")
    match rng.randrange(10):
        case 0:
            return content.encode("utf-16", "surrogatepass")
        case 1:
            place = rng.randrange(len(raw) + 1)
            return raw[:place] + rng.randbytes(rng.randint(1, 8)) + raw[place:]
        case _:
            return raw


def other_json(value: object, rng: random.Random) -> object:
    """Plain data with another value somewhere in it."""
    if isinstance(value, dict) and value and rng.random() < 0.8:
        key = rng.choice(sorted(value))
        if rng.random() < 0.2:
            return {name: one for name, one in value.items() if name != key}
        return value | {key: other_json(value[key], rng)}
    if isinstance(value, list) and value and rng.random() < 0.8:
        place = rng.randrange(len(value))
        return [*value[:place], other_json(value[place], rng), *value[place + 1 :]]
    return rng.choice(JSON_VALUES)


def setting(value: str, rng: random.Random) -> str:
    """JSON of a setting with something else in it, or a text that is nearly JSON."""
    if rng.random() < 0.2:
        return changed(value, rng).encode("utf-8", "replace").decode()
    return json.dumps(other_json(json.loads(value), rng))
