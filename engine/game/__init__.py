"""The whole game: first start, home, More, sound, light and motion.

Rules: `facts.py` reads everything home and More show, `offer.py` is what there is to play. Words
and flows of the entries: `entries.py`; a new screen is offered by one more entry there. Screens:
`cautions.py`, `home.py`, `sound_and_light.py`. Flow: `flow.py`, begin there; then `home_flow.py`.
`remeasuring.py` brings an earlier history to the definitions of today in the background.
"""
