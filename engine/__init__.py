"""What runs the drills: pedals, screens, sound, history and the loop that joins them."""

__version__ = "0.1.0"
