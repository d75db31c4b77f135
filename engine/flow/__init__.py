"""Which screen follows which."""
