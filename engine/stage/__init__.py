"""Main loop, window, speaker and events file.

Begin with `loop.py`, the one loop on the one thread. `scene.py` has the interface between the loop
and a screen. `stage.py` turns a cue or a verdict into light, sound and events. `speaker.py`
says which sounds there are, and `waves.py` and its neighbours make them. `headless.py` runs a flow
without a window.
"""
