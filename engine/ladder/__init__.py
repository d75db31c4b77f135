"""Ladder of levels: reading the levels, choosing one, finding the stage to begin at.

`level_files.py` reads the levels, `ladder.py` gives each its state, `flow.py` lets the player
choose and practise; begin there. `placing.py` and `placing_flow.py` are the placing set.
"""
