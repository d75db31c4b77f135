"""What is seen, heard and told: the loop, the window, the speaker, the events file.

`loop.py` is the one loop on the one thread; begin there. `scene.py` is what it knows of a screen,
`stage.py` what follows from a cue or a verdict. `headless.py` runs a flow without a window.
"""
