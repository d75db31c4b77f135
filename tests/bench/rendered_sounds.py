"""Script that renders the sounds of the tree it is run in to a file, for `sounds.py`.

    python rendered_sounds.py FILE        (in the root of the tree)

It knows the sounds of versions that had no earcons but a reward as well.
"""

import pickle
import sys
import time
from importlib import import_module
from inspect import signature
from pathlib import Path
from typing import Any

import numpy as np
from numpy.typing import NDArray

sys.path.insert(0, str(Path.cwd()))

brake_tone, waves = import_module("engine.stage.brake_tone"), import_module("engine.stage.waves")
BrakeTone = brake_tone.BrakeTone
Wave = NDArray[np.float64]

EASED = 2.5
"""Time that the rendered falling tone falls for, in s."""
GUIDE = ((0.0, 1.0), (0.3, 1.0), (0.3 + EASED, 0.0))
"""Course of the rendered falling tone: s, and the share of the brake left."""
READ_EACH = 4
"""Time between two reports of the hovering foot, in ms."""
SECONDS = 600
"""Time that the foot hovers at each edge, in s."""
WANDER = 0.12
"""Spread of the slow wander of a foot that hovers, as a share of the tolerance band."""
TREMOR = 0.05
"""Size of its tremor at 9 Hz, as a share of the band."""


def all_sounds() -> dict[str, Wave]:
    """Every sound by its name: aim tones, cues, verdicts and moments."""
    tones = (BrakeTone.LIGHT, BrakeTone.ON, BrakeTone.HEAVY)
    found = {f"aim: {tone.value}": np.tile(waves.brake_tone(tone), 2) for tone in tones}
    found |= {"cue: click": waves.click(), "cue: count": waves.beat()}
    takes_guide = "guide" in signature(waves.fall).parameters
    found |= {"cue: fall": waves.fall(GUIDE if takes_guide else EASED)}
    if hasattr(waves, "knock"):
        found |= {f"knock: {'high' if high else 'low'}": waves.knock(high=high) for high in (0, 1)}
    if hasattr(waves, "chime"):
        rewards = {f"verdict: clean {k}": waves.chime(waves.pitch(k)) for k in (1, 6)}
        moments = {"moment: passed": waves.passed_wave(), "moment: best": waves.best()}
        return found | rewards | moments
    earcon_waves = import_module("engine.stage.earcon_waves")
    found["cue: click over fall"] = waves.click_over_fall()
    found |= {f"verdict: clean {k}": earcon_waves.clean(k) for k in (1, 6)}
    for what in import_module("engine.stage.earcon").Earcon:
        group = "verdict" if what in earcon_waves.VERDICTS else "moment"
        found[f"{group}: {what.value}"] = earcon_waves.earcon(what)
    return found


def leans(middle: float) -> Wave:
    """Places of a foot that hovers about a place, as shares of the band, READ_EACH ms apart."""
    rng, size = np.random.default_rng(5), SECONDS * 1000 // READ_EACH
    # Wander that forgets itself in a second, and a tremor.
    noise = np.convolve(rng.normal(size=2 * size), np.exp(-np.arange(1000 // READ_EACH) / 60.0))
    wander = noise[size : 2 * size] / noise.std()
    tremor = np.sin(2 * np.pi * 9 * np.arange(size) * READ_EACH / 1000)
    places: Wave = middle + WANDER * wander + TREMOR * tremor
    return places


def changes(middle: float) -> float:
    """Changes of the aim tone a second for a foot that hovers about a place of the band."""
    count, before = 0, BrakeTone.SILENT
    aim = brake_tone.Aim() if hasattr(brake_tone, "Aim") else None
    for number, lean in enumerate(leans(middle)):
        if aim is None:
            tone = brake_tone.next_tone(before, 60.0, lean)
        else:
            aim = brake_tone.next_tone(aim, 60.0, lean, number * READ_EACH * 1_000_000)
            tone = aim.tone
        count, before = count + (tone is not before), tone
    return count / SECONDS


def main() -> None:
    """Render everything to the file."""
    began = time.process_time()
    found = all_sounds()
    took = time.process_time() - began
    edges = {f"flutter {middle}": changes(middle) for middle in (0.75, 0.85, 1.0)}
    mixer = import_module("engine.stage.sounds")
    facts = {"buffer": mixer.BUFFER, "fade": mixer.FADE, "took": took}
    everything: dict[str, Any] = {**found, **edges, **facts}
    Path(sys.argv[1]).write_bytes(pickle.dumps(everything))


if __name__ == "__main__":
    main()
