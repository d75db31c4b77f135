"""`ReplayView`: the replays of a reveal, played and drawn as the player asks for them."""

from __future__ import annotations

from collections.abc import Sequence

from engine.drill.replay_picture import ReplayPicture
from engine.drill.replay_player import ReplayPlayer
from engine.drill.replays import Best, Replays
from engine.kit.canvas import Canvas, Point
from engine.kit.looks import Look, Looks


class ReplayView:
    """Replays of a reveal: that of its repetition, and that of the best one."""

    def __init__(self, replays: Replays) -> None:
        self._replays = replays
        self._player = ReplayPlayer(replays.speaker)
        self._picture: ReplayPicture | None = None
        self._shown = Look.MAIN
        self._best: Best | None = None
        self.words = ""
        """What the best repetition is, or why it is not shown; empty where it was not asked for."""

    @property
    def looks(self) -> Sequence[Look]:
        """Replays that may be asked for, in order."""
        return (Look.OWN,) if self._replays.best is None else (Look.OWN, Look.BEST)

    @property
    def is_playing(self) -> bool:
        """Whether a replay plays."""
        return self._player.is_playing

    @property
    def at(self) -> float | None:
        """Place of the playhead, in s on the axis of the picture; None without a replay."""
        return None if self._picture is None else self._player.at

    def advance(self, now: int) -> bool:
        """Advance the replay to `now` (ns); returns whether it has ended."""
        self._player.on_time(now)
        return self._player.is_over

    def follow(self, looks: Looks, *, is_over: bool) -> None:
        """Start or end a replay as the look says, or with the screen if that `is_over`.

        Where there is no best one, the look changes to the figures. Raises StoreError.
        """
        if is_over:
            self.stop()
        elif looks.now is not self._shown:
            self.stop()
            self.words = ""
            if looks.now is Look.OWN:
                self._start(ReplayPicture(self._replays.own, self._replays.way))
            elif looks.now is Look.BEST:
                self._start_best(looks)
            self._shown = looks.now

    def stop(self) -> None:
        """End the replay and its sound."""
        self._player.stop()
        self._picture = None

    def _start_best(self, looks: Looks) -> None:
        """Start the replay of the best repetition, which is looked for once."""
        if self._best is None and self._replays.best is not None:
            self._best = self._replays.best()
        best, own = self._best, self._replays.own
        self.words = "" if best is None else best.words
        if best is None or best.course is None:
            looks.pass_over()
        else:
            self._start(ReplayPicture(best.course, self._replays.way, own.picture))

    def _start(self, picture: ReplayPicture) -> None:
        self._picture = picture
        self._player.start(picture.course)

    @property
    def shows_behind(self) -> bool:
        """Whether the curve of the repetition is drawn faintly behind that of the best."""
        return self._picture is not None and self._picture.shows_behind

    @property
    def moving_areas(self) -> Sequence[tuple[Point, Point]]:
        """Areas in which parts of the replay move, in canvas units; none without one."""
        return () if self._picture is None else self._picture.moving_areas

    def paint(self, canvas: Canvas, top: float, curve_top: float, bottom: float) -> None:
        """Draw what does not move of the replay, as `ReplayPicture.paint` does."""
        if self._picture is not None:
            self._picture.paint(canvas, top, curve_top, bottom)

    def paint_moving(self, canvas: Canvas) -> None:
        """Draw the playhead and the foot as they are now."""
        if self._picture is not None:
            self._picture.paint_moving(canvas, self._player.at)
