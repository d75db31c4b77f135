"""Drills: what a repetition asks of the feet and what it is worth; pure functions, numpy only."""
