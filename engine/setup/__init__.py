"""Room of the engine."""
