"""The whole game: first start, home, More, sound and light.

`flow.py` goes from the cautions to home and on; begin there. `entries.py` is the table of what
home and More offer, `facts.py` everything that they say, and `home.py` the two menus.
"""
