"""Inputs that nobody meant, given to the program in this process.

Each is answered with exit code 0 or 2, an error in one line, and never a traceback.
"""

import os
import random
import sqlite3
import threading
import time
from collections.abc import Iterator
from contextlib import closing, contextmanager, suppress
from pathlib import Path

import pygame

from engine.commands.table import COMMANDS
from engine.ladder.level_files import SHIPPED
from tests.bench.attempts import fuzzing, histories
from tests.bench.attempts.attempt import Finding, drawn
from tests.bench.attempts.command import call, faults
from tests.bench.attempts.game import SIZE, is_drawn

LONGEST = 6
"""Largest number of words of a command line, beside those it begins and ends with."""
NOWHERE = "--nowhere"
"""Option that no command has: what would open a window is refused before it does."""
OPTIONS = (
    *("--data", "--player", "--events", "--window", "--json", "--level", "--reps", "--seed"),
    *("--skill", "--fault", "--minutes", "--html", "--png", "--traces", "--dry-run", "--keep"),
    *("--brake", "--throttle", "--time", "--start", "--end", "--replay", "--help", "--list"),
)
"""Options of some command, a few of none."""
SETTINGS = ("cautions read", "ends declined", "rig", "window", "signals", "binding", "sound")
"""Keys of settings, of which some are in no history."""
PLAYED = 10
"""Of so many level files that are read one is played too."""
EVENTS = 60
"""Events that a game gets."""


@contextmanager
def inside(folder: Path) -> Iterator[None]:
    """Work in a folder, where relative paths lead and where the data is kept."""
    before, data = Path.cwd(), os.environ.get("STILLFOOT_DATA")
    os.chdir(folder)
    os.environ["STILLFOOT_DATA"] = str(folder / "data")
    try:
        yield
    finally:
        os.chdir(before)
        del os.environ["STILLFOOT_DATA"]
        if data is not None:
            os.environ["STILLFOOT_DATA"] = data


def command_line(number: int, folder: Path) -> Iterator[Finding]:
    """Give the program a command line of any words."""
    rng = drawn("fuzz lines", number)
    command = rng.choice(COMMANDS).name if rng.random() < 0.95 else fuzzing.word(rng)
    words = [
        rng.choice(OPTIONS) if rng.random() < 0.5 else fuzzing.word(rng).replace("/", "")
        for _ in range(rng.randint(0, LONGEST))
    ]
    words = [command, *(word for word in words if word not in {"-", ".."})]
    ending = ["--headless", "--reps", "1"] if command == "demo" else []
    opens = command in {"", "five", "warm-up", "trial"} or command.startswith("-")
    with inside(folder):
        yield from faults(call(*words, *([NOWHERE] if opens else ending)))


def level_file(number: int, folder: Path) -> Iterator[Finding]:
    """Put a level file that is nearly right into the data folder; play some that are accepted."""
    rng = drawn("fuzz levels", number)
    sound = rng.choice(sorted(SHIPPED.rglob("*.toml"))).read_text(encoding="utf-8")
    name = sound.partition('id = "')[2].partition('"')[0]
    content = fuzzing.changed(sound.replace(f'"{name}"', '"own-level"', 1), rng)
    file = folder / "data" / "levels" / "own.toml"
    file.parent.mkdir(parents=True)
    file.write_bytes(fuzzing.encoded(content, rng))
    with inside(folder):
        ended = call("levels")
        yield from faults(ended)
        if ended.code == 0 and number % PLAYED == 0:
            yield from faults(call("demo", "--headless", "--reps", "1", "--level", "own-level"))


def recording(number: int, folder: Path) -> Iterator[Finding]:
    """Score a recording that is nearly one."""
    rng = drawn("fuzz recordings", number)
    lines = histories.drive().read_text(encoding="utf-8").splitlines()
    few = "\n".join([lines[0], *lines[1 :: rng.choice((8, 20, 200))]])
    file = folder / "drive.csv"
    file.write_bytes(fuzzing.encoded(fuzzing.changed(few, rng), rng))
    more = rng.choice(
        ([], ["--json"], ["--keep"], ["--rate", "60"], ["--brake", fuzzing.word(rng)])
    )
    with inside(folder):
        yield from faults(call("score", str(file), *more))


def player(number: int, folder: Path) -> Iterator[Finding]:
    """Name a player by any text."""
    rng = drawn("fuzz names", number)
    name = rng.choice((fuzzing.text(rng, 12), fuzzing.word(rng), "Ada" + fuzzing.text(rng, 2)))
    with inside(folder):
        yield from faults(call("levels", f"--player={name}"))
        yield from faults(call("demo", "--headless", "--reps=1", "--data=data", f"--player={name}"))


def restored(number: int, folder: Path) -> Iterator[Finding]:
    """Restore a date or file that may be any text; the history stays what it is."""
    rng = drawn("fuzz restore", number)
    histories.copied(histories.usual(), folder / "data")
    which = fuzzing.changed(rng.choice(("2024-05-17", "17.5.2024", "2024-W20-5", "5")), rng)
    with inside(folder):
        yield from faults(call("restore", which.replace("/", "")), allowed=(0, 2))


def setting(number: int, folder: Path) -> Iterator[Finding]:
    """Begin with a setting that holds something else."""
    rng = drawn("fuzz settings", number)
    file = histories.copied(histories.usual(), folder / "data")
    with closing(sqlite3.connect(file)) as db, db:
        there = dict(db.execute("SELECT key, value FROM setting ORDER BY key").fetchall())
        table, column, key = rng.choice((("setting", "value", "key"), ("rig", "binding", "id")))
        if table == "rig":
            there = dict(db.execute("SELECT id, binding FROM rig").fetchall())
        which = rng.choice([*there, *(SETTINGS if table == "setting" else ())])
        value = fuzzing.setting(there.get(which, '{"a": [1, true]}'), rng)
        if which in there:
            db.execute(f"UPDATE {table} SET {column} = ? WHERE {key} = ?", (value, which))
        else:
            db.execute("INSERT INTO setting VALUES (?, ?)", (which, value))
    with inside(folder):
        for words in (("plan",), ("levels",), ("pedals",)):
            yield from faults(call(*words))


def events(number: int, folder: Path) -> Iterator[Finding]:
    """Give a game on the dummy driver events of every kind, then close its window."""
    rng, file = drawn("fuzz events", number), folder / "events.jsonl"
    histories.copied(histories.usual(), folder / "data")
    over = threading.Event()
    feeder = threading.Thread(target=_feed, args=(rng, file, over), daemon=True)
    feeder.start()
    with inside(folder):
        ended = call("--events", str(file), "--window", SIZE)
    over.set()
    feeder.join()
    yield from faults(ended, allowed=(0,))


def _feed(rng: random.Random, file: Path, over: threading.Event) -> None:
    """Post events once the game has drawn something, then close its window."""
    while not is_drawn(file):
        if over.wait(0.01):
            return
    for _ in range(EVENTS):
        with suppress(pygame.error):
            pygame.event.post(_event(rng))
        time.sleep(0.002)
    while not over.wait(0.1):
        with suppress(pygame.error):
            pygame.event.post(pygame.event.Event(pygame.QUIT))


def _event(rng: random.Random) -> pygame.event.Event:
    """Any event, with fields as SDL gives them, or none of them for one of the game's own."""
    key = rng.choice((pygame.K_UP, pygame.K_DOWN, pygame.K_LEFT, pygame.K_RIGHT, pygame.K_SPACE))
    at = {"pos": (rng.randint(-9, 4000), rng.randint(-9, 4000)), "button": rng.randint(0, 9)}
    joystick = {"instance_id": rng.randint(-1, 9), "joy": rng.randint(0, 9)}
    return rng.choice(
        (
            pygame.event.Event(pygame.KEYDOWN, key=key, mod=0, unicode="", scancode=0),
            pygame.event.Event(pygame.KEYDOWN, key=rng.randint(0, 2**31 - 1), mod=0, unicode="\0"),
            pygame.event.Event(pygame.TEXTINPUT, text=fuzzing.text(rng, 5)),
            pygame.event.Event(pygame.MOUSEBUTTONDOWN, at),
            pygame.event.Event(pygame.MOUSEBUTTONUP, at),
            pygame.event.Event(pygame.MOUSEMOTION, pos=at["pos"], rel=(0, 0), buttons=(0, 0, 0)),
            pygame.event.Event(pygame.JOYBUTTONDOWN, joystick, button=rng.randint(0, 99)),
            pygame.event.Event(pygame.JOYAXISMOTION, joystick, axis=0, value=rng.random()),
            pygame.event.Event(pygame.JOYDEVICEADDED, device_index=rng.randint(0, 9)),
            pygame.event.Event(pygame.JOYDEVICEREMOVED, joystick),
            pygame.event.Event(pygame.AUDIODEVICEREMOVED, which=0, iscapture=0),
            pygame.event.Event(pygame.AUDIODEVICEADDED, which=0, iscapture=0),
            pygame.event.Event(pygame.WINDOWFOCUSLOST),
            pygame.event.Event(pygame.WINDOWFOCUSGAINED),
            pygame.event.Event(pygame.WINDOWMINIMIZED),
            pygame.event.Event(pygame.WINDOWRESIZED, x=rng.randint(1, 4000), y=rng.randint(1, 9)),
            pygame.event.Event(pygame.DROPFILE, file=fuzzing.text(rng)),
            pygame.event.Event(pygame.USEREVENT),
        )
    )
