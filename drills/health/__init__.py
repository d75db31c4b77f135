"""Health of pedals: what a device can show, measured on raw axis counts over a led half minute."""
