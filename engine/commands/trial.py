"""The command `stillfoot trial`: straight into a trial of a foot position."""

from __future__ import annotations

import argparse

from engine.commands.play import run_play


def run_trial(options: argparse.Namespace) -> int:
    """Begin a trial, or go on with the one under way; the exit code. Raises Refusal."""
    from engine.game.entries import TRIAL_AT_ONCE

    return run_play(options, TRIAL_AT_ONCE)
