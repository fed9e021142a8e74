"""Everything that a run leaves behind."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import asdict
from pathlib import Path
from typing import Any

import torch

from ..frames import BINS, CHORD_POOL, HOP, LOWEST_MIDI, SAMPLE_RATE, SEMITONES
from ..lessons import Lesson
from ..model.features import BANKS, GAIN
from ..model.layers import BALANCE_SHIFTS, LONG_SHIFTS, SHORT_SHIFTS, SIDE_SHIFTS
from ..model.network import BEAT_DILATIONS, CHORD_BLOCKS, NOTE_OUTPUTS, SIZES
from ..model.notes_network import NOTES_EAR_OUTPUTS, NOTES_SIZES
from ..model.trunk import BLOCK_DILATIONS, GLOBAL_AFTER, GLOBAL_DILATIONS, OFFSET_REACH
from ..music.chords import QUALITY_NAMES
from .fold_batchnorm import fold
from .folded_network import FoldedEar, FoldedNotesEar
from .onnx_file import write_onnx
from .reference_vectors import reference_sound, write_reference
from .weight_file import read_tensors, write_tensors

FILE_NAMES: dict[str, str] = {"changes": "ear", "notes": "notes-ear"}
"""What the files of each ear are called."""


def _describe(lesson: Lesson) -> dict[str, Any]:
    """What a reader of the weights must know about shapes and features."""
    shared = {
        "sampleRate": SAMPLE_RATE,
        "hop": HOP,
        "lowestMidi": LOWEST_MIDI,
        "semitones": SEMITONES,
        "bins": BINS,
        "banks": [{"cycles": cycles, "fewest": fewest, "most": most} for cycles, fewest, most in BANKS],
        "logGain": GAIN,
        "longShifts": list(LONG_SHIFTS),
        "shortShifts": list(SHORT_SHIFTS),
        "blockDilations": [list(pair) for pair in BLOCK_DILATIONS],
        "globalAfter": GLOBAL_AFTER,
        "globalDilations": list(GLOBAL_DILATIONS),
        "offsetReach": OFFSET_REACH,
    }
    if lesson.ear == "notes":
        return {
            "format": "notes-ear-weights",
            "formatVersion": 1,
            **shared,
            "sideShifts": list(SIDE_SHIFTS),
            "balanceShifts": list(BALANCE_SHIFTS),
            "size": {"name": lesson.size, **asdict(NOTES_SIZES[lesson.size])},
            "noteOutputs": list(NOTES_EAR_OUTPUTS),
        }
    return {
        "format": "ear-weights",
        "formatVersion": 1,
        **shared,
        "size": {"name": lesson.size, **asdict(SIZES[lesson.size])},
        "chordPool": CHORD_POOL,
        "chordBlocks": [{"dilation": dilation, "circular": circular} for dilation, circular in CHORD_BLOCKS],
        "beatDilations": list(BEAT_DILATIONS),
        "noteOutputs": list(NOTE_OUTPUTS),
        "qualities": list(QUALITY_NAMES),
    }


@torch.no_grad()
def write_bundle(lesson: Lesson, network: Any, out: Path, summary: dict[str, Any], say: Callable[[str], None]) -> None:
    """Writes the weights with their manifest, the reference vectors and, where it can, an ONNX file into ``out``.

    ``network`` is that of the lesson, trained. Says how far the rounded file is from the network it came from.
    """
    network = network.float().cpu().eval()
    features = lesson.features.cpu()(reference_sound()[None])
    whole = network(features)
    training = {key: summary[key] for key in ("plan", "steps", "pieces")}
    name = FILE_NAMES[lesson.ear]
    path = out / f"{name}.bin"
    manifest = write_tensors(fold(network), "float16", path, {**_describe(lesson), "training": training})
    rounded = read_tensors(path)
    if lesson.ear == "notes":
        apart = {"notes": FoldedNotesEar(rounded)(features) - whole}
    else:
        names = ("notes", "chord", "bass", "beat")
        apart = {key: value - getattr(whole, key) for key, value in zip(names, FoldedEar(rounded)(features))}
    for key, difference in apart.items():
        say(f"{key}: file and network apart by at most {float(difference.abs().max()):.4f}")
    say(f"{path.name} {manifest['byteLength']} bytes, sha-256 {manifest['sha256']}")
    write_reference(lesson.ear, rounded, out / f"{name}-reference.bin")
    if lesson.ear == "notes":
        return
    try:
        write_onnx(rounded, out / "ear.onnx")
        say(f"ear.onnx {(out / 'ear.onnx').stat().st_size} bytes")
    except Exception as error:  # noqa: BLE001 - ONNX is a convenience; its failure must not cost the weights
        say(f"no ONNX file: {type(error).__name__}: {error}")
