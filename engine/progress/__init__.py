"""Progress of the player over time: learning curves, the history screens and the report.

Rules: `bins.py`, `learning_curve.py` and what they use. `progress.py` reads the values that
everything is drawn from; `flow.py` walks through the screens: begin there. A page of the history is
one entry in `history_pages.py`: a chart, and sentences from `words.py`. The report has the same
pages on paper.
"""
