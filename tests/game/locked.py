"""Script of a person whose history is locked by another program when a repetition ends."""

import subprocess
import sys
from contextlib import AbstractContextManager
from functools import partial
from typing import Self

from engine.store.history import FILE
from tests.game.leaving import leave
from tests.game.player import BRAKE, REACTION, Player
from tests.game.ways import open_the_level, out_of_the_set

LOCKS = """
import sqlite3, sys
db = sqlite3.connect(sys.argv[1], isolation_level=None)
for line in sys.stdin:
    db.execute(line.strip())
    print("done", flush=True)
"""
"""Program that carries out statements on a database, one a line."""
DIP = 6.0
"""Scripted dip of the repetition, in percent."""


class OtherProgram(AbstractContextManager["OtherProgram"]):
    """Another program that has the history file open."""

    def __init__(self, file: str) -> None:
        self._process = subprocess.Popen(
            [sys.executable, "-c", LOCKS, file],
            stdin=subprocess.PIPE,
            stdout=subprocess.PIPE,
            text=True,
        )

    def __enter__(self) -> Self:
        return self

    def __exit__(self, *_: object) -> None:
        self._process.communicate()

    def do(self, statement: str) -> None:
        """Carry out a statement; returns once that is done."""
        assert self._process.stdin is not None
        assert self._process.stdout is not None
        print(statement, file=self._process.stdin, flush=True)
        assert self._process.stdout.readline() == "done\n"


def locked(player: Player) -> None:
    """Blip while another program locks the history, and try again by feet once it is free."""
    player.screen("no pedals")
    player.plug()
    open_the_level(player)
    with OtherProgram(str(player.folder / "data" / FILE)) as other:

        def blip(cue: float) -> None:
            other.do("BEGIN EXCLUSIVE")
            player.foot.blip_at(cue + REACTION, DIP)
            player.screen("trouble")
            other.do("ROLLBACK")
            player.confirm()

        player.until_it_counts(partial(player.foot.glide, BRAKE), blip)
    out_of_the_set(player)
    leave(player)
