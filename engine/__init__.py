"""What runs the drills: pedals, screens, sound, history and the loop that joins them."""
