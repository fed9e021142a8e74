"""Building blocks of the network. Shapes: B batch, C channels, T frames, S semitones (96), P pitch classes (12)."""

from __future__ import annotations

import torch
from torch import Tensor, nn
from torch.nn import functional as F

from .depthwise import DepthwiseConv, PointwiseConv

LONG_SHIFTS: tuple[int, ...] = (-36, 0, 36, 57, 72, 84, 93, 101)
"""Bins by which the long bank is shifted so that harmonics 1/2, 1, 2, 3, 4, 5, 6, 7 of a pitch lie together."""

SHORT_SHIFTS: tuple[int, ...] = (0, 36, 57, 72)
"""The same for the short bank: harmonics 1 to 4."""

SIDE_SHIFTS: tuple[int, ...] = (0, 36, 57, 72)
"""The same for the long bank of what differs between left and right: harmonics 1 to 4."""

BALANCE_SHIFTS: tuple[int, ...] = (0, 36, 57, 72)
"""The same for the balance between left and right."""


def shift_bins(bank: Tensor, by: int) -> Tensor:
    """``out[..., k] = bank[..., k + by]``, zero beyond the ends."""
    if by == 0:
        return bank
    return F.pad(bank, (0, by))[..., by:] if by > 0 else F.pad(bank, (-by, 0))[..., :by]


def stack_harmonics(banks: Tensor, shifts: tuple[tuple[int, ...], ...]) -> Tensor:
    """(B, banks, T, 288) to (B, harmonics, T, 288): at each bin what lies at its harmonics (Bittner et al., ISMIR 2017).

    ``shifts`` holds the bins by which each bank is shifted.
    """
    stacked = [shift_bins(banks[:, bank : bank + 1], by) for bank, all_of in enumerate(shifts) for by in all_of]
    return torch.cat(stacked, 1)


class InvertedResidual(nn.Module):
    """1x1 to more channels, depthwise 5 frames x 3 semitones, 1x1 back, added (Sandler et al., CVPR 2018)."""

    def __init__(self, channels: int, expanded: int, time_dilation: int, pitch_dilation: int) -> None:
        super().__init__()
        self.expand = PointwiseConv(channels, expanded, bias=False)
        self.expand_norm = nn.BatchNorm2d(expanded)
        self.depth = DepthwiseConv(expanded, (5, 3), (time_dilation, pitch_dilation))
        self.depth_norm = nn.BatchNorm2d(expanded)
        self.project = PointwiseConv(expanded, channels, bias=False)
        self.project_norm = nn.BatchNorm2d(channels)

    def forward(self, x: Tensor) -> Tensor:
        """(B, C, T, S) to the same shape."""
        y = F.relu(self.expand_norm(self.expand(x)))
        y = F.relu(self.depth_norm(self.depth(y)))
        return x + self.project_norm(self.project(y))


class TimeResidual(nn.Module):
    """A convolution over five frames, added to its input."""

    def __init__(self, channels: int, dilation: int) -> None:
        super().__init__()
        self.conv = nn.Conv1d(channels, channels, 5, padding=2 * dilation, dilation=dilation, bias=False)
        self.norm = nn.BatchNorm1d(channels)

    def forward(self, x: Tensor) -> Tensor:
        """(B, C, T) to the same shape."""
        return x + F.relu(self.norm(self.conv(x)))


class PitchClassResidual(nn.Module):
    """Depthwise over five chord frames, then channels mixed at each pitch class (or over all twelve, circularly)."""

    def __init__(self, channels: int, dilation: int, circular: bool) -> None:
        super().__init__()
        self.circular = circular
        self.time = nn.Conv2d(
            channels, channels, (5, 1), padding=(2 * dilation, 0), dilation=(dilation, 1), groups=channels, bias=False
        )
        self.time_norm = nn.BatchNorm2d(channels)
        self.mix = nn.Conv2d(channels, channels, (1, 12 if circular else 1), bias=False)
        self.mix_norm = nn.BatchNorm2d(channels)

    def forward(self, x: Tensor) -> Tensor:
        """(B, C, T', 12) to the same shape."""
        y = F.relu(self.time_norm(self.time(x)))
        if self.circular:
            y = wrap_classes(y)
        return x + F.relu(self.mix_norm(self.mix(y)))


def wrap_classes(x: Tensor) -> Tensor:
    """(..., 12) to (..., 23): the first eleven pitch classes again behind the last, for a circular kernel of 12."""
    return torch.cat([x, x[..., :11]], -1)
