"""Playing repetitions and sets of them, with their reveals, summaries and guesses.

Rules: `guesses.py`, `tally.py`. Words: `set_words.py`, `prompt_words.py` (those of a verdict are in
its kind, under `drills/kinds`). Screens: `repetition_screen.py`, `reveal.py`, `summary.py`,
`guess_screen.py`, `set_end.py`, `interruptions.py`, `advice.py`. Flow: `set.py` plays a set; begin
there. It calls `turn.py` for each repetition, which calls `attempt.py`; `set_log.py` stores the
records. `demo.py` lets a simulated foot play.
"""
