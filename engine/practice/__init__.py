"""Rules that several rooms share, and the statistics under them; pure.

`results.py` has what the rules know of past repetitions; begin there. `passes.py` says what is
passed and open, `retention.py` what is still known on a later day, `streaks.py` what is in a row.
"""
