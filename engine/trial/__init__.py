"""Comparing two foot positions fairly.

Rules: `trial.py` is what a trial is, `randomisation.py` its order, `outcome.py` what it finds, with
the test in `difference.py` and `sign_flip.py` and the blips in `blips_compared.py`; `length.py` is
what each length finds and takes. Every word of a result is made in `words.py` and `blip_words.py`;
the screens only lay it out. `flow.py` is the menu, begin there; it leads to `beginning.py`,
`playing.py` and `result.py`. How a trial ends is changed in `outcome.py` and `words.py`.
"""
