"""The pedals port, and behind it SDL devices, the mouse and a simulated foot."""
