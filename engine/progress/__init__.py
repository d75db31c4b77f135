"""Looking back: learning curves, the history screens and the report.

`progress.py` holds the values that every picture is drawn from, `flow.py` reads them and walks
through the pictures: begin there. `history_pages.py` puts pictures and `words.py` together; the
report is the same on paper.
"""
