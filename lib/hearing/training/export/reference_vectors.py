"""A short sound with its features and outputs, by which another implementation proves itself equal."""

from __future__ import annotations

from pathlib import Path

import numpy as np
import torch

from ..frames import HOP, SAMPLE_RATE
from ..model.features import Features
from ..music.notes import Note, Vibrato
from ..sound.additive_voice import render_additive
from ..sound.string_loop_voice import render_string_loop
from .fold_batchnorm import Tensors
from .folded_network import FoldedEar
from .weight_file import write_tensors

FRAMES = 64
"""Frames of the reference: 1.5 s."""


def reference_sound() -> torch.Tensor:
    """A bass note, a chord and a pair of which one voice is raised by two semitones; our own sound, scaled to 0.1."""
    vibrato = Vibrato(5.5, 0.2, 0.2)
    pair = [
        Note(0.3, 1.4, 64, 100, [(0.3, 64.0), (0.7, 64.0), (0.8, 66.0)], [(0.75, 66.0)], vibrato),
        Note(0.3, 1.4, 68, 96, vibrato=vibrato),
    ]
    band = [Note(0.1, 0.8, 40, 100), Note(0.8, 1.45, 35, 100)]
    band += [Note(0.45, 0.75, midi, 70) for midi in (52, 56, 59)]
    sound = render_string_loop(pair, 3, 7.0) + 0.6 * render_additive(band, "pluck", 5, 7.0)
    noise = np.random.default_rng(11).standard_normal(len(sound)) * 1e-4
    sound = (sound + noise)[: (FRAMES - 1) * HOP]
    return torch.from_numpy((sound * (0.1 / np.sqrt(np.mean(sound**2)))).astype(np.float32))


@torch.no_grad()
def write_reference(tensors: Tensors, path: Path) -> None:
    """Writes sound, features and raw outputs of the tensors as they stand in the weight file, in float32."""
    sound = reference_sound()
    features = Features()(sound[None])
    notes, chord, bass, beat = FoldedEar(tensors)(features)
    write_tensors(
        {
            "sound": sound,
            "features": features[0],
            "notes": notes[0],
            "chord": chord[0],
            "bass": bass[0],
            "beat": beat[0],
        },
        "float32",
        path,
        {"sampleRate": SAMPLE_RATE, "frames": FRAMES},
    )
