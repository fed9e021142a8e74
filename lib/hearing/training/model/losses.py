"""Losses of all heads, weighted so that each pulls about equally hard."""

from __future__ import annotations

import torch
from torch import Tensor
from torch.nn import functional as F

from ..data.crops import Targets
from ..frames import CHORD_POOL
from ..music.chords import UNKNOWN
from .network import NOTE_OUTPUTS, OFFSET_REACH, Heard


def _crossentropy(logits: Tensor, target: Tensor, positive: float, where: Tensor | None = None) -> Tensor:
    """Binary cross entropy with soft targets, their positive part ``positive`` times as heavy, meant over ``where``."""
    loss = F.binary_cross_entropy_with_logits(logits, target, reduction="none") * (1 + (positive - 1) * target)
    if where is None:
        return loss.mean()
    return (loss * where).sum() / where.sum().clamp(min=1)


def _classification(logits: Tensor, labels: Tensor) -> Tensor:
    """Cross entropy meant over the frames whose label is known."""
    total = F.cross_entropy(
        logits.float().flatten(0, 1), labels.flatten(), ignore_index=UNKNOWN, reduction="sum"
    )
    return total / (labels != UNKNOWN).sum().clamp(min=1)


def pooled_chords(targets: Targets, frames: int) -> Tensor:
    """Chord and bass labels of chord frames, (B, T', 2): those of the third of each four frames."""
    return targets.chord[:, CHORD_POOL // 2 :: CHORD_POOL][:, :frames]


def losses(heard: Heard, targets: Targets) -> dict[str, Tensor]:
    """All losses by name, already weighted; their sum is minimised."""
    notes = dict(zip(NOTE_OUTPUTS, heard.notes.float().unbind(1)))
    maps = targets.maps
    sounding = ((maps["frame"] > 0) | (maps["onset"] > 0.4)).float()
    out = {
        "onset": 10 * _crossentropy(notes["onset"], maps["onset"], 3),
        "frame": 4 * _crossentropy(notes["frame"], maps["frame"], 2),
        "steel": 1.5 * _crossentropy(notes["steel"], maps["steel"], 1, sounding),
        "melody": 0.4 * _crossentropy(notes["melody"], maps["melody"], 1, sounding),
        "steelOnset": 10 * _crossentropy(notes["steelOnset"], maps["steelOnset"], 3),
        "bass": 8 * _crossentropy(notes["bass"], maps["bass"], 2),
        "bassOnset": 8 * _crossentropy(notes["bassOnset"], maps["bassOnset"], 3),
        "arrival": 8 * _crossentropy(notes["arrival"], maps["arrival"], 6),
    }
    off = (torch.tanh(notes["offset"]) * OFFSET_REACH - maps["offset"]).abs() * maps["frame"]
    out["offset"] = 2 * off.sum() / maps["frame"].sum().clamp(min=1)
    labels = pooled_chords(targets, heard.chord.shape[1])
    out["chord"] = 0.25 * _classification(heard.chord, labels[..., 0])
    out["chordBass"] = 0.15 * _classification(heard.bass, labels[..., 1])
    beat, has = heard.beat.float(), targets.has_beats[:, None].expand(-1, heard.beat.shape[-1])
    out["beat"] = 0.6 * _crossentropy(beat[:, 0], targets.beat[..., 0], 2, has)
    out["downbeat"] = 0.6 * _crossentropy(beat[:, 1], targets.beat[..., 1], 4, has)
    return out
