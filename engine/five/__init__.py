"""Sessions that run by themselves: five minutes a day, and the warm-up before driving.

`planner.py` is the rule for what comes next; begin there. `session.py` runs whatever rule it is
given until the time is over, which `practice_time.py` counts; `flow.py` begins and ends both kinds.
`player_state.py` holds what the rules read of the player, `forecast.py` predicts the next session
for home. `day.py` is what a session came to, and `day_end.py` the screen at its end.
"""
