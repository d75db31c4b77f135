"""One repetition played and told, and sets of them.

`attempt.py` plays a repetition and makes its record, `turn.py` adds the look back at it, `set.py`
a whole set: begin there. `repetition_screen.py` is what is seen meanwhile; reveal, summary, guess
and set end come after it. `demo.py` lets a simulated foot play.
"""
