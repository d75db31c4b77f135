"""Design system of all screens: colours, sizes of text and the grid.

Sizes are in canvas units: 1920 by 1080 of them fill the window. Text is regular; bold is for the
one thing on a screen that matters first. The colours stay distinct for colour-blind eyes: Okabe &
Ito 2008.
"""

from __future__ import annotations

WIDTH = 1920
"""Width of a screen, in canvas units."""
HEIGHT = 1080
"""Height of a screen, in canvas units."""

GROUND = (14, 16, 19)
"""Background colour, near black."""
RAISED = (30, 34, 40)
"""Colour of surfaces that lie on the background: charts, steps of the climb."""
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
INK = (78, 82, 88)
"""Colour of less important text on TEXT, as on the selected choice."""
DIP = (26, 52, 68)
"""Colour between the curve of the brake and what was held, a dark sky blue."""
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
LEAD = 70
"""Height of the one sentence that matters most, in canvas units; it is bold."""
LARGE = 84
"""Height of headings, in canvas units; they are bold."""
HUGE = 168
"""Height of words that must be read at a glance, in canvas units; they are bold."""
FIGURE = 230
"""Height of the one large figure of a screen, in canvas units; it is bold."""

MARGIN = 140
"""Margin at the left and right of a screen, in canvas units."""
TITLE = 76
"""Top of the heading of a screen, in canvas units."""
BELOW = 180
"""Top of what stands below the heading of a screen, in canvas units."""
LIST = 290
"""Top of a list of choices below a heading and one line of text, in canvas units."""
BAR = 906
"""Top of the bar of choices, in canvas units."""
BAR_HEIGHT = 96
"""Height of the bar of choices, in canvas units."""
FOOT = 1022
"""Top of the line at the foot of a screen, in canvas units."""
ROUND = 20
"""Radius of the corners of buttons, in canvas units."""
