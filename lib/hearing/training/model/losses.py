"""Losses of both networks, weighted so that each pulls about equally hard."""

from __future__ import annotations

import torch
from torch import Tensor
from torch.nn import functional as F

from ..data.crops import Targets
from ..data.frame_labels import BY_PEDAL
from ..frames import CHORD_POOL
from ..music.chords import UNKNOWN
from .network import NOTE_OUTPUTS, Heard
from .notes_network import NOTES_EAR_OUTPUTS
from .trunk import OFFSET_REACH


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


def _off_pitch(offset: Tensor, maps: dict[str, Tensor]) -> Tensor:
    """Mean distance in semitones from the true pitch wherever a note sounds."""
    off = (torch.tanh(offset) * OFFSET_REACH - maps["offset"]).abs() * maps["frame"]
    return off.sum() / maps["frame"].sum().clamp(min=1)


UNISON_WEIGHT = 3.0
"""A pick of the steel that the band strikes too is this many times as heavy as another."""


def note_losses(heard: Tensor, targets: Targets) -> dict[str, Tensor]:
    """Losses of the notes ear's maps (B, 9, T, 96) by name, already weighted."""
    notes = dict(zip(NOTES_EAR_OUTPUTS, heard.float().unbind(1)))
    maps = targets.maps
    sounding = ((maps["frame"] > 0) | (maps["onset"] > 0.4)).float()
    unison = 1 + (UNISON_WEIGHT - 1) * maps["unison"]
    picks = F.binary_cross_entropy_with_logits(notes["steelOnset"], maps["steelOnset"], reduction="none")
    picks = picks * (1 + (3 * unison - 1) * maps["steelOnset"])
    moved = ((maps["mechanism"] > 0) & (maps["arrival"] > 0.3)).float()
    by_pedal = (maps["mechanism"] >= BY_PEDAL).float()
    return {
        "onset": 10 * _crossentropy(notes["onset"], maps["onset"], 3),
        "frame": 4 * _crossentropy(notes["frame"], maps["frame"], 2),
        "steel": 2 * _crossentropy(notes["steel"], maps["steel"], 1, sounding * unison),
        "melody": 0.3 * _crossentropy(notes["melody"], maps["melody"], 1, sounding),
        "steelOnset": 12 * picks.mean(),
        "bandOnset": 10 * _crossentropy(notes["bandOnset"], maps["bandOnset"], 3),
        "arrival": 8 * _crossentropy(notes["arrival"], maps["arrival"], 6),
        "pedal": 0.3 * _crossentropy(notes["pedal"], by_pedal, 1, moved),
        "offset": 2 * _off_pitch(notes["offset"], maps),
    }


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
    out["offset"] = 2 * _off_pitch(notes["offset"], maps)
    labels = pooled_chords(targets, heard.chord.shape[1])
    out["chord"] = 0.25 * _classification(heard.chord, labels[..., 0])
    out["chordBass"] = 0.15 * _classification(heard.bass, labels[..., 1])
    beat, has = heard.beat.float(), targets.has_beats[:, None].expand(-1, heard.beat.shape[-1])
    out["beat"] = 0.6 * _crossentropy(beat[:, 0], targets.beat[..., 0], 2, has)
    out["downbeat"] = 0.6 * _crossentropy(beat[:, 1], targets.beat[..., 1], 4, has)
    return out
