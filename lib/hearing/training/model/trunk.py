"""The trunk that both networks have in common: harmonics stacked, six residual blocks, and a look at all semitones."""

from __future__ import annotations

from dataclasses import dataclass

import torch
from torch import Tensor, nn
from torch.nn import functional as F

from ..frames import SEMITONES
from .depthwise import PointwiseConv
from .layers import InvertedResidual, TimeResidual, stack_harmonics

BLOCK_DILATIONS: tuple[tuple[int, int], ...] = ((1, 1), (2, 1), (1, 12), (4, 1), (8, 1), (1, 1))
"""(frames, semitones) by which the depthwise kernels of the six blocks are spread; 12 sees the octave."""

GLOBAL_AFTER = 3
"""Blocks before the branch that sees all semitones at once."""

GLOBAL_CHANNELS = 64
GLOBAL_DILATIONS: tuple[int, ...] = (1, 4, 12)

FLAT = 4
"""Channels kept where 96 semitones are flattened."""

OFFSET_REACH = 0.6
"""Semitones that the map of offsets can reach."""

RARE = -4.0
"""First bias of the note maps: most of their places are empty, and a fresh map should not shake the rest."""


@dataclass(frozen=True, slots=True)
class TrunkSize:
    """Widths of the trunk: its channels, and those inside its blocks."""

    channels: int
    expanded: int


class Trunk(nn.Module):
    """Banks (B, banks, T, 288) to (B, C, T, 96)."""

    def __init__(self, size: TrunkSize, shifts: tuple[tuple[int, ...], ...]) -> None:
        """``shifts`` says for each bank at which bins above a pitch it is looked at."""
        super().__init__()
        c, self.shifts = size.channels, shifts
        self.input_norm = nn.BatchNorm2d(len(shifts))
        harmonics = sum(len(each) for each in shifts)
        self.stem = nn.Conv2d(harmonics, c, (3, 7), stride=(1, 3), padding=(1, 2), bias=False)
        self.stem_norm = nn.BatchNorm2d(c)
        self.blocks = nn.ModuleList([InvertedResidual(c, size.expanded, *spread) for spread in BLOCK_DILATIONS])
        self.global_in = PointwiseConv(c, FLAT, bias=True)
        self.global_dense = nn.Conv1d(FLAT * SEMITONES, GLOBAL_CHANNELS, 1)
        self.global_time = nn.ModuleList([TimeResidual(GLOBAL_CHANNELS, spread) for spread in GLOBAL_DILATIONS])
        self.global_out = nn.Conv1d(GLOBAL_CHANNELS, c, 1)

    def climb(self, x: Tensor) -> Tensor:
        """What all heads look at, from normalised banks."""
        h = F.relu(self.stem_norm(self.stem(stack_harmonics(x, self.shifts))))
        for index, block in enumerate(self.blocks):
            h = block(h)
            if index == GLOBAL_AFTER - 1:
                h = h + self._global(h)
        return F.relu(h)

    def _global(self, h: Tensor) -> Tensor:
        """What all semitones together say to each: (B, C, T, 1)."""
        g = F.relu(self.global_dense(flatten_semitones(self.global_in(h))))
        for block in self.global_time:
            g = block(g)
        return self.global_out(g).unsqueeze(-1)


def flatten_semitones(x: Tensor) -> Tensor:
    """(B, 4, T, 96) to (B, 384, T), channel by channel."""
    return x.permute(0, 1, 3, 2).reshape(x.shape[0], FLAT * SEMITONES, x.shape[2])


class NoteHead(nn.Module):
    """The trunk's (B, C, T, 96) to note maps (B, maps, T, 96)."""

    def __init__(self, channels: int, maps: int) -> None:
        super().__init__()
        self.mix = PointwiseConv(channels, channels, bias=False)
        self.norm = nn.BatchNorm2d(channels)
        self.out = PointwiseConv(channels, maps, bias=True)
        nn.init.constant_(self.out.bias, RARE)

    def forward(self, h: Tensor) -> Tensor:
        """All maps; where pitch is concerned see ``OFFSET_REACH``, the others are logits."""
        return self.out(F.relu(self.norm(self.mix(h))))


def count_parameters(network: nn.Module) -> int:
    """Trained numbers of the network."""
    return sum(parameter.numel() for parameter in network.parameters())


def load_weights(network: nn.Module, state: dict[str, Tensor]) -> None:
    """Loads the weights of an earlier network of the same kind and size.

    Where the earlier network had fewer outputs, its own take the first places and the rest stay as they are. Raises
    ``ValueError`` where tensors lack or differ otherwise.
    """
    own = network.state_dict()
    if own.keys() != state.keys():
        raise ValueError(f"weights of another network: {sorted(own.keys() ^ state.keys())}")
    for name, mine in own.items():
        earlier = state[name].to(mine.device)
        if mine.shape == earlier.shape:
            continue
        if mine.shape[1:] != earlier.shape[1:] or mine.shape[0] < earlier.shape[0]:
            raise ValueError(f"{name} has the shape {tuple(earlier.shape)}, not {tuple(mine.shape)}")
        state = {**state, name: torch.cat([earlier, mine[earlier.shape[0] :]])}
    network.load_state_dict(state)
