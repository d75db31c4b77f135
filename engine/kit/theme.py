"""Colours and sizes of all screens, in canvas units: 1920 by 1080 of them fill the window.

The colours stay distinct for colour-blind eyes: Okabe & Ito 2008.
"""

from __future__ import annotations

WIDTH = 1920
"""Width of a screen, in canvas units."""
HEIGHT = 1080
"""Height of a screen, in canvas units."""

GROUND = (14, 16, 19)
"""Background colour, near black."""
RAISED = (30, 34, 40)
"""Colour behind the selected choice and behind charts."""
FAINT = (92, 98, 108)
"""Colour of thin lines such as ticks and outlines."""
BAND = (44, 50, 58)
"""Colour of a tolerance band and of the grid of a chart."""
EARLIER = (104, 134, 152)
"""Colour of earlier repetitions: a dull sky blue, visible on a band but weaker than BRAKE."""
QUIET = (163, 168, 176)
"""Colour of less important text, grey."""
TEXT = (236, 233, 226)
"""Colour of normal text, near white."""
BRAKE = (0x56, 0xB4, 0xE9)
"""Colour of the brake, sky blue."""
THROTTLE = (0xE6, 0x9F, 0x00)
"""Colour of the throttle, orange."""
CLUTCH = (0xCC, 0x79, 0xA7)
"""Colour of the clutch, reddish purple."""

SMALL = 44
"""Height of the smallest text, in canvas units: on a 27 inch screen 2 m away its capitals span 12
minutes of arc, where 10 are enough to read."""
BODY = 56
"""Height of normal text, in canvas units."""
LARGE = 84
"""Height of headings, in canvas units."""
HUGE = 168
"""Height of text that must be read at a glance, in canvas units."""

MARGIN = 120
"""Margin at the left and right of a screen, in canvas units."""
