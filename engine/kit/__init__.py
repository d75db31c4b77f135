"""Building blocks of every screen: canvas, typeface, widgets, base screens and charts.

Begin with `base.py`, which has the screen and the menu that all others derive from. `canvas.py`
draws in the units of `theme.py`; `charts.py` draws alike in the window, a picture file or a page.
"""
