"""The ear of beats and changes: the trunk with heads for chords and bass, beats, and notes."""

from __future__ import annotations

from dataclasses import dataclass

import torch
from torch import Tensor, nn
from torch.nn import functional as F

from ..frames import CHORD_POOL, SEMITONES
from ..music.chords import QUALITIES
from .depthwise import PointwiseConv
from .layers import LONG_SHIFTS, SHORT_SHIFTS, PitchClassResidual, TimeResidual, wrap_classes
from .trunk import FLAT, NoteHead, Trunk, TrunkSize, flatten_semitones

NOTE_OUTPUTS: tuple[str, ...] = (
    "onset", "frame", "steel", "offset", "arrival", "melody", "steelOnset", "bass", "bassOnset",
)
"""Note maps in the order of the output channels; new ones go last, so that earlier weights can be gone on from. All
but ``offset`` are logits; the offset in semitones is ``0.6 tanh`` of its channel."""

CHORD_CLASSES = 12 * len(QUALITIES) + 1
BASS_CLASSES = 13


@dataclass(frozen=True, slots=True)
class Size(TrunkSize):
    """Widths of the network: those of the trunk, then chord head and beat head."""

    chord_channels: int
    beat_channels: int


SIZES: dict[str, Size] = {
    "S": Size(16, 32, 32, 32),
    "M": Size(32, 64, 48, 48),
    "L": Size(40, 96, 64, 64),
}

CHORD_BLOCKS: tuple[tuple[int, bool], ...] = ((1, True), (2, False), (4, True), (8, False))
"""(dilation, circular) of the blocks of the chord head."""

BEAT_DILATIONS: tuple[int, ...] = tuple(2**power for power in range(8))
FOLDED = 8
"""Channels of the chord head before the octaves are folded together."""


@dataclass(slots=True)
class Heard:
    """Outputs: ``notes`` (B, 9, T, 96), ``chord`` (B, T', 121) and ``bass`` (B, T', 13) logits with T' = T // 4,
    ``beat`` (B, 2, T) logits of beat and downbeat."""

    notes: Tensor
    chord: Tensor
    bass: Tensor
    beat: Tensor


class EarNetwork(Trunk):
    """Features (B, 2, T, 288) to ``Heard``."""

    def __init__(self, size: Size) -> None:
        super().__init__(size, (LONG_SHIFTS, SHORT_SHIFTS))
        c, flat = size.channels, FLAT * SEMITONES
        self.note = NoteHead(c, len(NOTE_OUTPUTS))
        k = size.chord_channels
        self.chord_in = PointwiseConv(c, FOLDED, bias=True)
        self.chord_circle = nn.Conv2d(FOLDED * SEMITONES // 12, k, (1, 12), bias=False)
        self.chord_norm = nn.BatchNorm2d(k)
        self.chord_blocks = nn.ModuleList([PitchClassResidual(k, *spread) for spread in CHORD_BLOCKS])
        self.chord_out = PointwiseConv(k, len(QUALITIES) + 1, bias=True)
        self.chord_none = nn.Linear(k, 2)
        b = size.beat_channels
        self.beat_in = PointwiseConv(c, FLAT, bias=True)
        self.beat_dense = nn.Conv1d(flat + 2 * SEMITONES, b, 1, bias=False)
        self.beat_norm = nn.BatchNorm1d(b)
        self.beat_time = nn.ModuleList([TimeResidual(b, spread) for spread in BEAT_DILATIONS])
        self.beat_out = nn.Conv1d(b, 2, 1)

    def forward(self, features: Tensor) -> Heard:
        """Hears ``features``; T should be a multiple of four, or the last chord frame is left out."""
        x = self.input_norm(features)
        h = self.climb(x)
        chord, bass = self._chords(h)
        return Heard(self.note(h), chord, bass, self._beats(h, x))

    def _chords(self, h: Tensor) -> tuple[Tensor, Tensor]:
        """Chord and bass logits; a transposed record gives the same logits moved along."""
        batch = h.shape[0]
        frames = h.shape[2] // CHORD_POOL
        k = F.avg_pool2d(self.chord_in(h)[:, :, : frames * CHORD_POOL], (CHORD_POOL, 1))
        octaves = SEMITONES // 12
        k = k.reshape(batch, FOLDED, frames, octaves, 12).permute(0, 3, 1, 2, 4)
        k = k.reshape(batch, octaves * FOLDED, frames, 12)
        k = F.relu(self.chord_norm(self.chord_circle(wrap_classes(k))))
        for block in self.chord_blocks:
            k = block(k)
        by_class = self.chord_out(k)
        none = self.chord_none(k.mean(-1).transpose(1, 2))
        qualities = by_class[:, : len(QUALITIES)].permute(0, 2, 3, 1).reshape(batch, frames, CHORD_CLASSES - 1)
        chord = torch.cat([qualities, none[..., :1]], -1)
        bass = torch.cat([by_class[:, len(QUALITIES)], none[..., 1:]], -1)
        return chord, bass

    def _beats(self, h: Tensor, x: Tensor) -> Tensor:
        """Beat logits from the trunk and from what rises in the short bank."""
        short = F.avg_pool2d(x[:, 1:2], (1, 3))[:, 0].transpose(1, 2)
        rise = F.relu(short - F.pad(short, (1, 0))[..., :-1])
        z = torch.cat([flatten_semitones(self.beat_in(h)), short, rise], 1)
        z = F.relu(self.beat_norm(self.beat_dense(z)))
        for block in self.beat_time:
            z = block(z)
        return self.beat_out(z)
