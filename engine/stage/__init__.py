"""What is seen, heard and told: the loop, the window, the speaker, the events file."""
