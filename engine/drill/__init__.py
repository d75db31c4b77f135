"""Playing repetitions and sets of them, with their lessons, reveals, replays and moments.

Rules: `guesses.py`, `tally.py`, `moment_rules.py`. Words: `set_words.py`, `prompt_words.py` and the
other `*_words.py` (those of a verdict are in its kind, under `drills/kinds`). Screens:
`repetition_screen.py`, `reveal.py`, `summary.py`, `guess_screen.py`, `set_end.py`, `moment.py`,
`lesson.py`, `interruptions.py`, `advice.py`. Flow: `set.py` plays a set; begin there. It calls
`lesson_flow.py` and `turn.py` for each repetition, which calls `attempt.py`; `set_log.py` stores
the records, `moments.py` shows what they achieved. What a reveal replays begins in `replays.py`.
`demo.py` lets a simulated foot play.
"""
