"""Inputs that were never meant: odd words, texts that are nearly right, and random bytes."""

import random
from collections.abc import Sequence
from functools import cache

from drills.example import EXAMPLE
