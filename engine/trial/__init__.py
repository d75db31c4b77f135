"""Comparing two foot positions fairly.

`trial.py` holds what a trial is, `randomisation.py` its order, `outcome.py` what it ends with.
`flow.py` is the door to all of it; begin there. `beginning.py`, `playing.py` and `result.py` are
the three parts of a trial, each with its screens.
"""
