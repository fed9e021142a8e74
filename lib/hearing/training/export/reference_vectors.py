"""A short sound with its features and outputs, by which another implementation proves itself equal."""

from __future__ import annotations

from pathlib import Path

import numpy as np
import torch
from numpy.typing import NDArray

from ..frames import HOP, SAMPLE_RATE
from ..model.features import Features, StereoFeatures
from ..music.notes import Arrival, Note, Vibrato
from ..sound.additive_voice import render_additive
from ..sound.string_loop_voice import render_string_loop
from .fold_batchnorm import Tensors
from .folded_network import FoldedEar, FoldedNotesEar
from .weight_file import write_tensors

FRAMES = 64
"""Frames of the reference: 1.5 s."""


RMS = 0.1


def _pair() -> NDArray[np.float32]:
    """A pair of which one voice is raised by two semitones."""
    vibrato = Vibrato(5.5, 0.2, 0.2)
    notes = [
        Note(0.3, 1.4, 64, 100, [(0.3, 64.0), (0.7, 64.0), (0.8, 66.0)], [Arrival(0.75, 66.0)], vibrato),
        Note(0.3, 1.4, 68, 96, vibrato=vibrato),
    ]
    return render_string_loop(notes, 3, 7.0)


def _band() -> NDArray[np.float32]:
    """A bass note and a chord."""
    notes = [Note(0.1, 0.8, 40, 100), Note(0.8, 1.45, 35, 100)]
    notes += [Note(0.45, 0.75, midi, 70) for midi in (52, 56, 59)]
    return 0.6 * render_additive(notes, "pluck", 5, 7.0)


def reference_sound() -> torch.Tensor:
    """Mid and side, (2, samples), of our own sound: the pair somewhat to the left, the band to the right, a little noise.

    Mid is scaled to 0.1.
    """
    noise = np.random.default_rng(11).standard_normal((2, (FRAMES - 1) * HOP)) * 1e-4
    pair, band = _pair()[: (FRAMES - 1) * HOP], _band()[: (FRAMES - 1) * HOP]
    both = np.stack([pair + band, 0.4 * pair - 0.3 * band]) + noise
    return torch.from_numpy((both * (RMS / np.sqrt(np.mean(both[0] ** 2)))).astype(np.float32))


@torch.no_grad()
def write_reference(ear: str, tensors: Tensors, path: Path) -> None:
    """Writes sound, features and raw outputs of the tensors as they stand in the weight file, in float32."""
    sound = reference_sound()
    vectors: dict[str, torch.Tensor]
    if ear == "notes":
        features = StereoFeatures()(sound[None])
        vectors = {"sound": sound, "features": features[0], "notes": FoldedNotesEar(tensors)(features)[0]}
    else:
        features = Features()(sound[None])
        names = ("notes", "chord", "bass", "beat")
        heard = dict(zip(names, FoldedEar(tensors)(features)))
        vectors = {"sound": sound[0], "features": features[0], **{name: heard[name][0] for name in names}}
    write_tensors(vectors, "float32", path, {"sampleRate": SAMPLE_RATE, "frames": FRAMES})
