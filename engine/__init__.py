"""Engine that runs the drills: pedals, screens, sound, history and the main loop."""

__version__ = "0.1.0"
