"""The network: one trunk over frames and semitones, heads for notes, chords and bass, and beats."""

from __future__ import annotations

from dataclasses import dataclass

import torch
from torch import Tensor, nn
from torch.nn import functional as F

from ..frames import CHORD_POOL, SEMITONES
from ..music.chords import QUALITIES
from .depthwise import PointwiseConv
from .layers import HARMONICS, InvertedResidual, PitchClassResidual, TimeResidual, stack_harmonics, wrap_classes

NOTE_OUTPUTS: tuple[str, ...] = (
    "onset", "frame", "steel", "offset", "arrival", "melody", "steelOnset", "bass", "bassOnset",
)
"""Note maps in the order of the output channels; new ones go last, so that earlier weights can be gone on from. All
but ``offset`` are logits; the offset in semitones is ``0.6 tanh`` of its channel."""

RARE = -4.0
"""First bias of the note maps: most of their places are empty, and a fresh map should not shake the rest."""

OFFSET_REACH = 0.6
CHORD_CLASSES = 12 * len(QUALITIES) + 1
BASS_CLASSES = 13


@dataclass(frozen=True, slots=True)
class Size:
    """Widths of the network: trunk, expanded trunk, chord head, beat head."""

    channels: int
    expanded: int
    chord_channels: int
    beat_channels: int


SIZES: dict[str, Size] = {
    "S": Size(16, 32, 32, 32),
    "M": Size(32, 64, 48, 48),
    "L": Size(40, 96, 64, 64),
}

BLOCK_DILATIONS: tuple[tuple[int, int], ...] = ((1, 1), (2, 1), (1, 12), (4, 1), (8, 1), (1, 1))
"""(frames, semitones) by which the depthwise kernels of the six blocks are spread; 12 sees the octave."""

GLOBAL_AFTER = 3
"""Blocks before the branch that sees all semitones at once."""

GLOBAL_CHANNELS = 64
GLOBAL_DILATIONS: tuple[int, ...] = (1, 4, 12)
CHORD_BLOCKS: tuple[tuple[int, bool], ...] = ((1, True), (2, False), (4, True), (8, False))
"""(dilation, circular) of the blocks of the chord head."""

BEAT_DILATIONS: tuple[int, ...] = tuple(2**power for power in range(8))
FOLDED = 8
"""Channels of the chord head before the octaves are folded together."""

FLAT = 4
"""Channels kept where 96 semitones are flattened."""


@dataclass(slots=True)
class Heard:
    """Outputs: ``notes`` (B, 9, T, 96), ``chord`` (B, T', 121) and ``bass`` (B, T', 13) logits with T' = T // 4,
    ``beat`` (B, 2, T) logits of beat and downbeat."""

    notes: Tensor
    chord: Tensor
    bass: Tensor
    beat: Tensor


class EarNetwork(nn.Module):
    """Features (B, 2, T, 288) to ``Heard``."""

    def __init__(self, size: Size) -> None:
        super().__init__()
        c, flat = size.channels, FLAT * SEMITONES
        self.input_norm = nn.BatchNorm2d(2)
        self.stem = nn.Conv2d(HARMONICS, c, (3, 7), stride=(1, 3), padding=(1, 2), bias=False)
        self.stem_norm = nn.BatchNorm2d(c)
        self.blocks = nn.ModuleList([InvertedResidual(c, size.expanded, *spread) for spread in BLOCK_DILATIONS])
        self.global_in = PointwiseConv(c, FLAT, bias=True)
        self.global_dense = nn.Conv1d(flat, GLOBAL_CHANNELS, 1)
        self.global_time = nn.ModuleList([TimeResidual(GLOBAL_CHANNELS, spread) for spread in GLOBAL_DILATIONS])
        self.global_out = nn.Conv1d(GLOBAL_CHANNELS, c, 1)
        self.note_mix = PointwiseConv(c, c, bias=False)
        self.note_norm = nn.BatchNorm2d(c)
        self.note_out = PointwiseConv(c, len(NOTE_OUTPUTS), bias=True)
        nn.init.constant_(self.note_out.bias, RARE)
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
        h = F.relu(self.stem_norm(self.stem(stack_harmonics(x))))
        for index, block in enumerate(self.blocks):
            h = block(h)
            if index == GLOBAL_AFTER - 1:
                h = h + self._global(h)
        h = F.relu(h)
        notes = self.note_out(F.relu(self.note_norm(self.note_mix(h))))
        chord, bass = self._chords(h)
        return Heard(notes, chord, bass, self._beats(h, x))

    def _flatten(self, x: Tensor) -> Tensor:
        """(B, 4, T, 96) to (B, 384, T), channel by channel."""
        return x.permute(0, 1, 3, 2).reshape(x.shape[0], FLAT * SEMITONES, x.shape[2])

    def _global(self, h: Tensor) -> Tensor:
        """What all semitones together say to each: (B, C, T, 1)."""
        g = F.relu(self.global_dense(self._flatten(self.global_in(h))))
        for block in self.global_time:
            g = block(g)
        return self.global_out(g).unsqueeze(-1)

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
        z = torch.cat([self._flatten(self.beat_in(h)), short, rise], 1)
        z = F.relu(self.beat_norm(self.beat_dense(z)))
        for block in self.beat_time:
            z = block(z)
        return self.beat_out(z)


def load_weights(network: nn.Module, state: dict[str, Tensor]) -> list[str]:
    """Loads the weights of an earlier network into ``network``; returns the names of those that were widened.

    Where the earlier network had fewer outputs, its own take the first places and the rest stay as they are. Raises
    ``ValueError`` where tensors lack or differ otherwise.
    """
    own = network.state_dict()
    if own.keys() != state.keys():
        raise ValueError(f"weights of another network: {sorted(own.keys() ^ state.keys())}")
    widened = [name for name in own if own[name].shape != state[name].shape]
    for name in widened:
        mine, earlier = own[name], state[name]
        if mine.shape[1:] != earlier.shape[1:] or mine.shape[0] < earlier.shape[0]:
            raise ValueError(f"{name} has the shape {tuple(earlier.shape)}, not {tuple(mine.shape)}")
        state = {**state, name: torch.cat([earlier.to(mine.device), mine[earlier.shape[0] :]])}
    network.load_state_dict(state)
    return widened


def count_parameters(network: nn.Module) -> int:
    """Trained numbers of the network."""
    return sum(parameter.numel() for parameter in network.parameters())
