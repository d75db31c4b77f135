"""Settings of every test: one fixed hypothesis profile, whose seed is printed on failure."""

from hypothesis import settings

settings.register_profile(
    "suite", derandomize=True, deadline=None, max_examples=40, print_blob=True
)
settings.load_profile("suite")
