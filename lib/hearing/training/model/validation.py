"""Figures on held-out pieces, printed while training runs. They steer the training; they are no claim about records."""

from __future__ import annotations

from dataclasses import dataclass, field
from typing import TypeVar

import torch
from torch import nn
from torch.nn import functional as F

from ..data.crops import Targets, cut_crops
from ..data.damage import damage, normalise, to_mid_and_side
from ..data.piece_store import PieceStore
from ..music.chords import QUALITIES, UNKNOWN
from .losses import losses, pooled_chords
from .network import NOTE_OUTPUTS, Heard
from .note_figures import NoteFigures
from .tallies import Tally, peaks
from .trunk import OFFSET_REACH

ONSET_THRESHOLD = 0.45
ROLE_THRESHOLD = 0.4
NEAR_FRAMES = 2
"""An onset within two frames (46 ms) of a true one is right."""

BATCH = 16

SomeFigures = TypeVar("SomeFigures", "Figures", NoteFigures)


@dataclass(slots=True)
class Figures:
    """Held-out figures. Tallies print as precision/recall/F."""

    onset: Tally = field(default_factory=Tally)
    steel: Tally = field(default_factory=Tally)
    picks: Tally = field(default_factory=Tally)
    bass_onsets: Tally = field(default_factory=Tally)
    bass_frames: Tally = field(default_factory=Tally)
    arrival: Tally = field(default_factory=Tally)
    beat: Tally = field(default_factory=Tally)
    downbeat: Tally = field(default_factory=Tally)
    chord_frames: float = 0.0
    roots: float = 0.0
    chords: float = 0.0
    basses: float = 0.0
    loss: float = 0.0
    batches: int = 0
    cents: float = 0.0
    cents_frames: float = 0.0

    def add(self, heard: Heard, targets: Targets) -> None:
        """Adds a batch."""
        maps = targets.maps
        notes = {name: torch.sigmoid(value.float()) for name, value in zip(NOTE_OUTPUTS, heard.notes.unbind(1))}
        true_onsets = peaks(maps["onset"], 0.4)
        onsets = peaks(notes["onset"], ONSET_THRESHOLD)
        self.onset.add(onsets, true_onsets, NEAR_FRAMES)
        soon = F.max_pool2d(notes["steel"][:, None], (3, 1), 1, (1, 0))[:, 0] > ROLE_THRESHOLD
        true_soon = F.max_pool2d(maps["steel"][:, None], (3, 1), 1, (1, 0))[:, 0] > 0
        self.steel.add(onsets & soon, true_onsets & true_soon, NEAR_FRAMES)
        self.picks.add(peaks(notes["steelOnset"], ROLE_THRESHOLD), peaks(maps["steelOnset"], 0.4), NEAR_FRAMES)
        self.bass_onsets.add(peaks(notes["bassOnset"], ROLE_THRESHOLD), peaks(maps["bassOnset"], 0.4), NEAR_FRAMES)
        self.bass_frames.add(notes["bass"] > ROLE_THRESHOLD, maps["bass"] > 0, 0)
        self.arrival.add(peaks(notes["arrival"], 0.35, 3), peaks(maps["arrival"], 0.4, 3), 4)
        off = torch.tanh(heard.notes[:, NOTE_OUTPUTS.index("offset")].float()) * OFFSET_REACH
        self.cents += float(((off - maps["offset"]).abs() * maps["frame"]).sum()) * 100
        self.cents_frames += float(maps["frame"].sum())
        labels = pooled_chords(targets, heard.chord.shape[1])
        known = labels[..., 0] != UNKNOWN
        best = heard.chord.argmax(-1)
        self.chord_frames += float(known.sum())
        self.chords += float(((best == labels[..., 0]) & known).sum())
        self.roots += float(((best // len(QUALITIES) == labels[..., 0] // len(QUALITIES)) & known).sum())
        self.basses += float(((heard.bass.argmax(-1) == labels[..., 1]) & known).sum())
        has = targets.has_beats > 0
        if bool(has.any()):
            beats = torch.sigmoid(heard.beat[has].float())
            self.beat.add(peaks(beats[:, 0], 0.4, 4), peaks(targets.beat[has][..., 0], 0.5), 3)
            self.downbeat.add(peaks(beats[:, 1], 0.35, 4), peaks(targets.beat[has][..., 1], 0.5), 3)
        self.loss += float(sum(losses(heard, targets).values()))
        self.batches += 1

    def __str__(self) -> str:
        frames = max(1.0, self.chord_frames)
        return (
            f"loss {self.loss / max(1, self.batches):.3f} onset {self.onset} steel {self.steel} "
            f"picks {self.picks} bass line {self.bass_frames} its onsets {self.bass_onsets} "
            f"arrival {self.arrival} cents {self.cents / max(1.0, self.cents_frames):.1f} "
            f"root {self.roots / frames:.3f} chord {self.chords / frames:.3f} bass {self.basses / frames:.3f} "
            f"beat {self.beat} downbeat {self.downbeat}"
        )


@torch.no_grad()
def measure(
    network: nn.Module, features: nn.Module, figures: SomeFigures, store: PieceStore, damaged: bool, half_precision: bool
) -> SomeFigures:
    """``figures`` of ``network`` (set to evaluate) over all pieces of ``store``, the same crops at every call."""
    generator = torch.Generator(store.device)
    generator.manual_seed(77)
    for first in range(0, store.size, BATCH):
        ids = torch.arange(first, min(store.size, first + BATCH), device=store.device)
        sound, targets = cut_crops(store, ids, damaged, generator)
        sound = damage(sound, generator) if damaged else to_mid_and_side(normalise(sound))
        with torch.autocast("cuda", dtype=torch.bfloat16, enabled=half_precision):
            heard = network(features(sound))
        figures.add(heard, targets)
    return figures
