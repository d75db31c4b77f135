"""Finding the pedals and calibrating them.

`flow.py` is the whole of it; begin there. `search_flow.py` looks for one pedal after another with
the finder of `engine/pedals`, on the screens of `finding_screens.py`; `words.py` has what they say.
"""
