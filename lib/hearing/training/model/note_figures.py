"""Figures of the notes ear on held-out pieces."""

from __future__ import annotations

from dataclasses import dataclass, field

import torch
from torch import Tensor

from ..data.crops import Targets
from ..data.frame_labels import BY_PEDAL
from .losses import note_losses
from .notes_network import NOTES_EAR_OUTPUTS
from .tallies import Tally, peaks
from .trunk import OFFSET_REACH

NEAR_FRAMES = 2
"""An onset within two frames (46 ms) of a true one is right."""


@dataclass(slots=True)
class NoteFigures:
    """Held-out figures. Tallies print as precision/recall/F."""

    onset: Tally = field(default_factory=Tally)
    picks: Tally = field(default_factory=Tally)
    strokes: Tally = field(default_factory=Tally)
    arrival: Tally = field(default_factory=Tally)
    frames: Tally = field(default_factory=Tally)
    unisons: float = 0.0
    unisons_found: float = 0.0
    moved: float = 0.0
    told: float = 0.0
    cents: float = 0.0
    cents_frames: float = 0.0
    loss: float = 0.0
    batches: int = 0

    def add(self, heard: Tensor, targets: Targets) -> None:
        """Adds a batch of the network's maps."""
        maps = targets.maps
        notes = {name: torch.sigmoid(value.float()) for name, value in zip(NOTES_EAR_OUTPUTS, heard.unbind(1))}
        picks, true_picks = peaks(notes["steelOnset"], 0.35), peaks(maps["steelOnset"], 0.4)
        self.onset.add(peaks(notes["onset"], 0.45), peaks(maps["onset"], 0.4), NEAR_FRAMES)
        self.picks.add(picks, true_picks, NEAR_FRAMES)
        self.strokes.add(peaks(notes["bandOnset"], 0.45), peaks(maps["bandOnset"], 0.4), NEAR_FRAMES)
        self.arrival.add(peaks(notes["arrival"], 0.35, 3), peaks(maps["arrival"], 0.4, 3), 4)
        self.frames.add(notes["frame"] > 0.4, maps["frame"] > 0, 0)
        together = true_picks & (maps["unison"] > 0)
        near = torch.nn.functional.max_pool2d(picks.float()[:, None], (5, 1), 1, (2, 0))[:, 0] > 0
        self.unisons += float(together.sum())
        self.unisons_found += float((together & near).sum())
        moved = peaks(maps["arrival"], 0.4, 3) & (maps["mechanism"] > 0)
        right = (notes["pedal"] > 0.5) == (maps["mechanism"] >= BY_PEDAL)
        self.moved += float(moved.sum())
        self.told += float((moved & right).sum())
        off = torch.tanh(heard[:, NOTES_EAR_OUTPUTS.index("offset")].float()) * OFFSET_REACH
        self.cents += float(((off - maps["offset"]).abs() * maps["frame"]).sum()) * 100
        self.cents_frames += float(maps["frame"].sum())
        self.loss += float(sum(note_losses(heard, targets).values()))
        self.batches += 1

    def __str__(self) -> str:
        return (
            f"loss {self.loss / max(1, self.batches):.3f} onset {self.onset} picks {self.picks} strokes {self.strokes} "
            f"in unison found {self.unisons_found / max(1.0, self.unisons):.3f} arrival {self.arrival} "
            f"mechanism {self.told / max(1.0, self.moved):.3f} frames {self.frames} "
            f"cents {self.cents / max(1.0, self.cents_frames):.1f}"
        )
