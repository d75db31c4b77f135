"""Pedals behind one port: devices, the mouse, simulated feet.

`port.py` is how a reading becomes a sample; begin there. `rig.py` is what is played with, `sdl.py`
the devices. `finder.py` and its neighbours find a pedal by watching it move.
"""
