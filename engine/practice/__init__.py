"""Rules of practice (passing, retention, streaks, steadiness) and their statistics, without I/O.

`results.py` defines what the rules read of past repetitions; begin there. `passes.py` decides what
is passed and open, `retention.py` what is retained on a later day, `streaks.py` counts clean
repetitions and days in a row.
"""
