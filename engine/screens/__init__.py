"""What the person sees: one file a screen, and the few widgets they share."""
