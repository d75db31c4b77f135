"""What a repetition asks and what it is worth: pure functions of values, with numpy only."""
