"""Every sound of the game, measured: could it be heard, told apart, and does it clip?

    python tests/bench/sounds.py [--before REV]

With a revision its sounds are rendered too, from a checkout of its own, and printed first. Levels
are in dB of full scale, A-weighted, of the loudest fifth of a second. A small speaker is a
second-order high-pass at 400 Hz; masking is the best sixth of an octave over road-like noise (pink,
falling from 1 kHz on) at 45 dB(A), where the cue is played at 75. Nobody listens here: a person
should.
"""

from __future__ import annotations

import argparse
import pickle
import subprocess
import sys
import tempfile
import time
from collections.abc import Mapping
from itertools import combinations
from pathlib import Path
from typing import Any

import numpy as np

ROOT = Path(__file__).resolve().parents[2]
sys.path.insert(0, str(ROOT))

from engine.stage.replay_wave import ear_wave, replay_wave  # noqa: E402
from engine.stage.waves import RATE, Wave  # noqa: E402
from tests.engine.stage.hearing import (  # noqa: E402
    EDGES,
    bands,
    level,
    loss_on_small_speaker,
    unlike,
)

NOISE, CUE = 45.0, 75.0
"""Levels of the noise of the road and of the cue, in dB(A)."""
FRAME = 1000 / 60
"""Time between two pictures of a screen, in ms."""
FLASH = 3.0
"""Time to fill and show a picture, in ms, at most (measured with tests/bench/loop.py)."""
Sounds = Mapping[str, Wave]


def road() -> Wave:
    """Four seconds of road-like noise at NOISE dB(A), as pressures of which 1 is 0 dB(A)."""
    size = 4 * RATE
    pitch = np.fft.rfftfreq(size, 1 / RATE)
    shape = np.zeros(pitch.size)
    shape[1:] = pitch[1:] ** -0.5 / np.sqrt(1 + (pitch[1:] / 1000) ** 2)
    shape[pitch < 30] = 0
    phases = np.random.default_rng(3).uniform(0, 2 * np.pi, pitch.size)
    noise = np.fft.irfft(shape * np.exp(1j * phases), size)
    heard: Wave = noise * 10 ** ((NOISE - level(noise)) / 20)
    return heard


def over_noise(wave: Wave, noise: Wave, gain: float) -> float:
    """How far a wave stands over noise in its best band, in dB; played `gain` dB louder.

    Both are taken over the fifth of a second that the ear takes together.
    """
    window = RATE // 5
    begun = np.pad(wave[:window], (0, max(window - wave.size, 0))) * 10 ** (gain / 20)
    parts = noise[: noise.size // window * window].reshape(-1, window)
    masks = np.mean([bands(part, EDGES) for part in parts], axis=0)
    return float(10 * np.log10((bands(begun, EDGES) / masks).max()))


def table(sounds: Sounds) -> None:
    """Print a line for each sound: level, small speaker, peak, over noise, nearest other."""
    noise, gain = road(), CUE - level(sounds["cue: click"])
    told = {name: wave for name, wave in sounds.items() if name.startswith(("verdict", "moment"))}
    print(f"{'':24}{'dB(A)':>8}{'small':>8}{'peak':>7}{'noise':>8}  nearest in 0.2 s")
    for name, wave in sounds.items():
        others = {other: unlike(wave, told[other]) for other in told if other != name}
        if name.startswith("verdict: clean"):
            others = {o: far for o, far in others.items() if not o.startswith("verdict: clean")}
        nearest = min(others, key=lambda other: others[other]) if name in told else ""
        near = f"{others[nearest]:.2f} {nearest}" if nearest else ""
        row = f"{level(wave):8.1f}{-loss_on_small_speaker(wave):8.1f}{np.abs(wave).max():7.2f}"
        print(f"{name:24}{row}{over_noise(wave, noise, gain):+8.0f}  {near}")


def sums(sounds: Sounds) -> None:
    """Print the peaks of sounds that can play together; over 1 they clip."""
    peak = {name: float(np.abs(wave).max()) for name, wave in sounds.items()}
    tail = float(np.abs(sounds["cue: fall"][RATE // 10 :]).max())
    tone = max(size for name, size in peak.items() if name.startswith("aim"))
    verdict = max(size for name, size in peak.items() if name.startswith("verdict"))
    moment = max(size for name, size in peak.items() if name.startswith("moment"))
    click = peak.get("cue: click over fall", peak["cue: click"])
    together = {
        "click over the fall": click + tail,
        "knock at turn-in over the fall": peak["cue: count"] + tail,
        "fall over a tone that fades": peak["cue: fall"] + tone,
        "verdict over a tone that fades": verdict + tone,
        "moment over a verdict": verdict + moment,
        "one tone into another": 2 * tone,
    }
    for name, size in together.items():
        print(f"  {name:34}{size:6.2f}{'  CLIPS' if size > 1 else ''}")


def report(found: Mapping[str, Any], title: str) -> None:
    """Print all there is to say of the sounds of one version."""
    sounds = {name: wave for name, wave in found.items() if ": " in name}
    print(f"\n{title}")
    table(sounds)
    print("peaks together")
    sums(sounds)
    told = [name for name in sounds if name.startswith(("verdict", "moment"))]
    pairs = {pair: unlike(sounds[pair[0]], sounds[pair[1]]) for pair in combinations(told, 2)}
    least = min(pairs, key=lambda pair: pairs[pair])
    cues = unlike(sounds["cue: click"], sounds["cue: count"])
    print(f"least apart: {pairs[least]:.2f} ({' and '.join(least)}); cue and count: {cues:.2f}")
    flutter = {name: float(value) for name, value in found.items() if name.startswith("flutter")}
    worst = max(flutter, key=lambda name: flutter[name])
    edge = worst.partition(" ")[2]
    print(f"flutter: {flutter[worst]:.1f} changes of aim a second, hovering at {edge} of the band")
    first = 1000 * float(found["buffer"]) / RATE
    print(
        f"start: sound {first:.1f} to {2 * first:.1f} ms after the cue, as its buffer fills (from"
        f" the buffer's size); flash {FLASH:.0f} to {FLASH + FRAME:.0f} ms, as the screen scans"
    )
    print(f"fades: {int(found['fade'])} ms; all waves are made in {1000 * found['took']:.0f} ms")


def rendered(root: Path) -> Mapping[str, Any]:
    """Everything rendered in the tree at a path."""
    with tempfile.TemporaryDirectory() as folder:
        file = Path(folder) / "sounds"
        script = ROOT / "tests" / "bench" / "rendered_sounds.py"
        subprocess.run([sys.executable, str(script), str(file)], cwd=root, check=True)
        found: dict[str, Any] = pickle.loads(file.read_bytes())
        return found


def rendered_before(revision: str) -> Mapping[str, Any]:
    """Everything rendered in a revision, from a checkout that is removed again."""
    with tempfile.TemporaryDirectory() as folder:
        packed = Path(folder) / "tree.tar"
        archive = ["git", "-C", str(ROOT), "archive", "-o", str(packed), revision]
        subprocess.run([*archive, "engine", "drills"], check=True)
        subprocess.run(["tar", "-xf", str(packed), "-C", folder], check=True)
        return rendered(Path(folder))


def replays() -> None:
    """Print how much processor time a replay and a curve by ear take to make: the best of five."""
    at = np.arange(3000) / 1000
    brake = -20 * np.exp(-((at - 1) ** 2) / 0.02)
    throttle = np.clip(-4 * brake, 0, 100)
    took = {"replay of 12 s": [0.0] * 5, "curve by ear": [0.0] * 5}
    for turn in range(5):
        began = time.process_time()
        wave = replay_wave(at, brake, throttle, 0.25)
        middle = time.process_time()
        ear_wave(at, brake)
        took["replay of 12 s"][turn] = middle - began
        took["curve by ear"][turn] = time.process_time() - middle
    best = ", ".join(f"{name} {1000 * min(times):.0f} ms" for name, times in took.items())
    print(f"\nmade in: {best}; peak of the replay {np.abs(wave).max():.2f}")


def main() -> None:
    """Print the tables, before and after."""
    parser = argparse.ArgumentParser(description="Measure every sound of the game.")
    parser.add_argument("--before", metavar="REV", help="revision to compare with")
    before = parser.parse_args().before
    if before:
        report(rendered_before(before), f"before ({before})")
    report(rendered(ROOT), "now")
    replays()


if __name__ == "__main__":
    main()
