"""What every screen is made of: canvas, typeface, widgets, base screens and charts.

`base.py` has the screen and the menu that all others derive from; begin there. `canvas.py` draws
in units of `theme.py`; `charts.py` draws on a window, a picture file or a page alike.
"""
