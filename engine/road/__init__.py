"""Recording a drive in a simulator, and comparing it with the drills.

`recorder.py` turns pedal samples into a recording, `drive.py` finds and measures its blips, and
`transfer.py` compares them with the drills; `words.py` says it. `flow.py` does all of it in the
game; begin there.
"""
