"""The command `stillfoot trial`: begins or continues a trial of a foot position at once."""

from __future__ import annotations

import argparse

from engine.commands.play import run_play


def run_trial(options: argparse.Namespace) -> int:
    """Begin a trial, or continue the current one; return the exit code. Raises Refusal."""
    from engine.game.entries import TRIAL_AT_ONCE

    return run_play(options, TRIAL_AT_ONCE)
