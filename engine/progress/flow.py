"""Flows through the pages of the history, and for marking a change."""

from __future__ import annotations

from dataclasses import replace

from drills.level import Level
from engine.drill.attempt import Setting
from engine.kit.flow import show
from engine.practice.changes import Changed
from engine.progress.history_pages import PAGES
from engine.progress.history_screens import (
    HistoryPage,
    MarkChange,
    PageTurn,
    WhatChanged,
    next_kind,
)
from engine.progress.progress import progress_of
from engine.stage.scene import Flow
from engine.store import History
from engine.store.changes import mark_change
from engine.store.remeasure import remeasuring


def look_back(setting: Setting, history: History, band: Level) -> Flow[None]:
    """Show the pages of the history, one after another, until the player goes back."""
    today, page = setting.now().date(), next(iter(PAGES))
    progress = progress_of(history, setting.levels, band, today)
    while True:
        if progress.remeasuring != remeasuring(history):
            progress = progress_of(history, setting.levels, band, today)
        screen = HistoryPage(progress, page)
        match (yield from show(screen, setting.rig, setting.stage)):
            case PageTurn.NEXT:
                page = screen.next_page
            case PageTurn.PREVIOUS:
                page = screen.previous_page
            case PageTurn.KIND:
                progress = next_kind(progress)
            case PageTurn.CHANGE:
                if (yield from _mark_change(setting, history)):
                    chosen = progress.chosen
                    progress = progress_of(history, setting.levels, band, today)
                    progress = replace(progress, chosen=chosen)
            case _:
                return


def _mark_change(setting: Setting, history: History) -> Flow[bool]:
    """Ask what was changed and store it once confirmed; returns whether it was stored."""
    rig, stage = setting.rig, setting.stage
    while True:
        what = yield from show(WhatChanged(), rig, stage)
        if not isinstance(what, Changed):
            return False
        if (yield from show(MarkChange(what), rig, stage)):
            mark_change(history, setting.now(), what)
            return True
