"""Looking back: learning curves, the history screens and the report.

Rules: `bins.py`, `learning_curve.py` and what they use. `progress.py` holds the values that
everything is drawn from; `flow.py` reads them and walks through the screens: begin there. A page of
the history is one entry in `history_pages.py`, made of a chart and sentences from `words.py`; the
report puts the same pages on paper.
"""
