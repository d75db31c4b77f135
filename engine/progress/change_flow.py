"""Flow for marking a change of foot or rig, or taking the newest mark back."""

from __future__ import annotations

from engine.date_words import dated_words
from engine.drill.attempt import Setting
from engine.kit.flow import show
from engine.kit.text_entry import TextEntry
from engine.practice.changes import Changed
from engine.progress.change_screens import ChangeTurn, MarkChange, TakeBack, WhatChanged
from engine.progress.changes_words import change_lines
from engine.progress.progress import Progress
from engine.stage.scene import Flow
from engine.store import History
from engine.store.changes import mark_change, take_back_mark

NOTE_MOST = 60
"""Most characters of a note on a change."""


def change_flow(setting: Setting, history: History, progress: Progress) -> Flow[bool]:
    """Mark a change or take the newest mark back; returns whether anything was stored."""
    marks = [change for change in progress.changes if change.what.by_player]
    newest = marks[-1] if marks else None
    day = "" if newest is None else dated_words(newest.at.date(), progress.today)
    while True:
        screen = WhatChanged(change_lines(progress), day)
        chosen = yield from show(screen, setting.rig, setting.stage)
        if isinstance(chosen, Changed):
            if (yield from _mark(chosen, setting, history)):
                return True
        elif chosen is ChangeTurn.TAKE_BACK and newest is not None:
            if (yield from show(TakeBack(newest, day), setting.rig, setting.stage)):
                return take_back_mark(history)
        else:
            return False


def _mark(what: Changed, setting: Setting, history: History) -> Flow[bool]:
    """Ask for a note, which may be left out, and store the change once it is confirmed."""
    note = ""
    while True:
        turn = yield from show(MarkChange(what, note), setting.rig, setting.stage)
        if turn is ChangeTurn.MARK:
            mark_change(history, setting.now(), what, note)
            return True
        if turn is not ChangeTurn.NOTE:
            return False
        entry = TextEntry("What is new, in a few words", note, NOTE_MOST)
        if (yield from show(entry, setting.rig, setting.stage)):
            note = entry.text.strip()
