"""Flow that tells what the coach has found, once, at the end of a session."""

from __future__ import annotations

from engine.drill.attempt import Setting
from engine.drill.moment_rules import Achievement, AchievementKind
from engine.five.coach_news import News, keep_told, news_of, told_before
from engine.five.coach_screen import CoachScreen
from engine.five.coach_view import coach_now
from engine.five.coach_words import halved_words
from engine.five.saved_focus import newest_step
from engine.kit.flow import show
from engine.stage.scene import Flow
from engine.store import History


def news_now(history: History) -> News:
    """What the coach has to tell by the newest look at the blips. Raises StoreError."""
    return news_of(told_before(history), newest_step(history))


def halved_achievements(news: News) -> tuple[Achievement, ...]:
    """The moment of a fault that has halved; none where none has."""
    halved = news.halved
    if halved is None:
        return ()
    return (Achievement(AchievementKind.BEST, halved_words(halved.was, halved.now)),)


def tell(news: News, setting: Setting, history: History) -> Flow[None]:
    """Show the fault that was found, if one was, and store what has been told by now.

    The moment of one that has halved was shown before. Raises StoreError.
    """
    keep_told(history, news)
    if news.found is not None:
        screen = CoachScreen(coach_now(history, setting.levels))
        yield from show(screen, setting.rig, setting.stage)
