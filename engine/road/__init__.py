"""Recording a drive in a simulator, and comparing it with the drills.

`recorder.py` samples the pedals, `drive.py` finds and measures the blips, `transfer.py` sets them
beside the drills. `flow.py` does it from the game; begin there.
"""
