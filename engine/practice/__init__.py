"""Pure rules over past results: what is passed, what is next, and the streaks."""
