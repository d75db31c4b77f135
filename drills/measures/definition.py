"""Version of the definitions of all measures, which the history keeps with what it holds."""

DEFINITION = 2
"""Version of the definitions; raise it with any change that alters a measure of a stored
repetition, and the history measures itself once more."""
