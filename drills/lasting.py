"""`Lasting`: debounces the events of a pedal, so that a glitch of the device is none."""

from __future__ import annotations

from drills.trace import nanoseconds

LEAST = 0.010
"""Least time in s that a movement of a pedal lasts to be an event: a foot takes longer."""
REPORTS = 1.5
"""Least time that a movement lasts to be an event, in times between reports of the device: a
single wrong report does not."""


class Lasting:
    """Watches a condition on the pedals, and tells when it has lasted long enough to be true."""

    def __init__(self, report_interval: float) -> None:
        """`report_interval` is the time between reports of the pedals, in s."""
        self._least = nanoseconds(max(LEAST, REPORTS * report_interval))
        self._since: int | None = None

    @property
    def waits(self) -> bool:
        """Whether the condition holds, but not for long enough yet."""
        return self._since is not None

    def since(self, holds: bool, now: int) -> int | None:
        """When the condition began (ns), once it has held for long enough; None before that.

        `holds` is whether it holds at the time `now`, in ns.
        """
        if not holds:
            self._since = None
            return None
        if self._since is None:
            self._since = now
        return self._since if now - self._since >= self._least else None

    def restart(self) -> None:
        """Forget the condition: another one is watched from now on."""
        self._since = None
