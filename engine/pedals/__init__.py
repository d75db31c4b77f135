"""Pedals behind one interface: devices, the mouse and simulated feet.

Begin with `port.py`, which turns a reading into a sample. `rig.py` joins the pedals in use with the
devices and the clock; `sdl.py` reads the devices. `finder.py`, `seeking.py` and `ends.py` find a
pedal by watching its axis move.
"""
