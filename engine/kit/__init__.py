"""Building blocks of every screen: canvas, typeface, widgets, base screens, charts and the foot.

Begin with `base.py`, which has the screen and the menu that all others derive from. `canvas.py`
draws in the units of `theme.py`; `charts.py` draws alike in the window, a picture file or a page.
`motion.py` says how far a movement is, and `foot.py` draws the foot on its pedals.
"""
