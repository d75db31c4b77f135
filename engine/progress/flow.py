"""Flow through the pages of the history."""

from __future__ import annotations

from dataclasses import replace

from drills.level import Level
from engine.drill.attempt import Setting
from engine.kit.flow import show
from engine.progress.change_flow import change_flow
from engine.progress.history_pages import PAGES
from engine.progress.history_screens import HistoryPage, PageTurn, next_kind
from engine.progress.progress import progress_of
from engine.stage.scene import Flow
from engine.store import History
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
                if (yield from change_flow(setting, history, progress)):
                    chosen = progress.chosen
                    progress = progress_of(history, setting.levels, band, today)
                    progress = replace(progress, chosen=chosen)
            case _:
                return
