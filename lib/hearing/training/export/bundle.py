"""Everything that a run leaves behind."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import asdict
from pathlib import Path
from typing import Any

import torch

from ..frames import BINS, CHORD_POOL, HOP, LOWEST_MIDI, SAMPLE_RATE, SEMITONES
from ..model.features import BANKS, GAIN, Features
from ..model.layers import LONG_SHIFTS, SHORT_SHIFTS
from ..model.network import (
    BEAT_DILATIONS, BLOCK_DILATIONS, CHORD_BLOCKS, GLOBAL_AFTER, GLOBAL_DILATIONS, NOTE_OUTPUTS, OFFSET_REACH, SIZES,
    EarNetwork,
)
from ..music.chords import QUALITY_NAMES
from .fold_batchnorm import fold
from .folded_network import FoldedEar
from .onnx_file import write_onnx
from .reference_vectors import reference_sound, write_reference
from .weight_file import read_tensors, write_tensors


def describe(size_name: str) -> dict[str, Any]:
    """What a reader of the weights must know about shapes and features."""
    return {
        "format": "ear-weights",
        "formatVersion": 1,
        "sampleRate": SAMPLE_RATE,
        "hop": HOP,
        "lowestMidi": LOWEST_MIDI,
        "semitones": SEMITONES,
        "bins": BINS,
        "banks": [{"cycles": cycles, "fewest": fewest, "most": most} for cycles, fewest, most in BANKS],
        "logGain": GAIN,
        "longShifts": list(LONG_SHIFTS),
        "shortShifts": list(SHORT_SHIFTS),
        "size": {"name": size_name, **asdict(SIZES[size_name])},
        "blockDilations": [list(pair) for pair in BLOCK_DILATIONS],
        "globalAfter": GLOBAL_AFTER,
        "globalDilations": list(GLOBAL_DILATIONS),
        "chordPool": CHORD_POOL,
        "chordBlocks": [{"dilation": dilation, "circular": circular} for dilation, circular in CHORD_BLOCKS],
        "beatDilations": list(BEAT_DILATIONS),
        "noteOutputs": list(NOTE_OUTPUTS),
        "offsetReach": OFFSET_REACH,
        "qualities": list(QUALITY_NAMES),
    }


@torch.no_grad()
def write_bundle(
    network: EarNetwork, size_name: str, out: Path, summary: dict[str, Any], say: Callable[[str], None]
) -> None:
    """Writes ``ear.bin`` with ``ear.json``, the reference vectors and, where it can, ``ear.onnx`` into ``out``.

    Says how far the rounded file is from the network it came from.
    """
    network = network.float().cpu().eval()
    features = Features()(reference_sound()[None])
    whole = network(features)
    training = {key: summary[key] for key in ("plan", "steps", "pieces")}
    manifest = write_tensors(fold(network), "float16", out / "ear.bin", {**describe(size_name), "training": training})
    rounded = read_tensors(out / "ear.bin")
    for name, folded in zip(("notes", "chord", "bass", "beat"), FoldedEar(rounded)(features)):
        say(f"{name}: file and network apart by at most {float((folded - getattr(whole, name)).abs().max()):.4f}")
    say(f"ear.bin {manifest['byteLength']} bytes, sha-256 {manifest['sha256']}")
    write_reference(rounded, out / "ear-reference.bin")
    try:
        write_onnx(rounded, out / "ear.onnx")
        say(f"ear.onnx {(out / 'ear.onnx').stat().st_size} bytes")
    except Exception as error:  # noqa: BLE001 - ONNX is a convenience; its failure must not cost the weights
        say(f"no ONNX file: {type(error).__name__}: {error}")
