"""Colours and sizes. Sizes are for a picture of 1920 by 1080 and grow with the window.

Colours that stay distinct for colour-blind eyes: Okabe & Ito 2008.
"""

from __future__ import annotations

WIDTH = 1920
"""units across the picture."""
HEIGHT = 1080
"""units down the picture."""

GROUND = (14, 16, 19)
"""Near black, behind everything."""
RAISED = (30, 34, 40)
"""Behind what can be chosen."""
FAINT = (92, 98, 108)
"""Lines, and what was before."""
BAND = (44, 50, 58)
"""The tolerance in a picture."""
EARLIER = (104, 134, 152)
"""Sky blue gone quiet, for earlier repetitions: plain on the band, and no rival of this one."""
QUIET = (163, 168, 176)
"""Text that may be passed over."""
TEXT = (236, 233, 226)
"""Text to read."""
BRAKE = (0x56, 0xB4, 0xE9)
"""Sky blue."""
THROTTLE = (0xE6, 0x9F, 0x00)
"""Orange."""
CLUTCH = (0xCC, 0x79, 0xA7)
"""Reddish purple."""

SMALL = 44
"""Smallest text: on a 27 inch screen 2 m away its capitals span 12 minutes of arc; 10 will do."""
BODY = 56
"""Text to read."""
LARGE = 84
"""Headings."""
HUGE = 168
"""What must be seen at a glance."""

MARGIN = 120
"""units kept free at the sides."""
