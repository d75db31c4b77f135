"""Finding and calibrating the pedals.

Rules: `search.py`, and the finder in `engine/pedals`. Words: `words.py`. Screens:
`choice_screens.py` (menus), `finding_screens.py` on `search_screen.py`, and `no_pedals.py`.
Flow: `flow.py`; begin there. It calls `search_flow.py`, which finds one pedal after another.
"""
