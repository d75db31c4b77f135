"""Salvage of a damaged history: what can be read of it is carried over into a new one.

Begin with `repair.py`, which sets the damaged file aside, and `salvage.py`, which makes the new
one: `pages.py` reads rows from what is left of the file, `sift.py` takes out those that no reader
understands, `fill.py` fills gaps from copies, and `loss.py` counts what is missing in the end.
"""
