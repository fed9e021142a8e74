"""What the networks see: two banks of windowed complex exponentials, three bins to the semitone.

Bin ``k`` stands at MIDI pitch ``24 + (k - 1) / 3``. Each kernel is a Hann window of ``n`` samples, of sum 1, times
``2 exp(-2 pi i f t / rate)`` with ``t`` counted from the middle sample; the long bank takes
``n = clip(40 rate / f, 1024, 8192)`` (fine pitch), the short one ``n = clip(12 rate / f, 512, 2048)`` (fine time),
both rounded down to even. The feature is ``ln(1 + 10^4 |X|) / 4`` of sound at a root mean square of 0.1: a constant-Q
transform after Brown (1991) with bounded windows. The notes ear sees two banks more: the long one of the side signal, and
how the long one is balanced between left and right (after the panning index of Avendano 2003, made signed).
"""

from __future__ import annotations

import numpy as np
import torch
from numpy.typing import NDArray
from torch import Tensor, nn
from torch.nn import functional as F

from ..frames import BINS, BINS_PER_SEMITONE, HOP, LOWEST_MIDI, SAMPLE_RATE

LONGEST = 8192
"""Samples of the longest kernel; a frame is the 8192 samples around its centre."""

BANKS: tuple[tuple[float, int, int], ...] = ((40.0, 1024, LONGEST), (12.0, 512, 2048))
"""Cycles in a window, fewest and most samples, of the long and the short bank."""

GAIN = 1e4


def bin_frequency(index: int) -> float:
    """Frequency in Hz of a bin."""
    return float(440 * 2 ** ((LOWEST_MIDI + (index - 1) / BINS_PER_SEMITONE - 69) / 12))


def window_samples(freq_hz: float, cycles: float, fewest: int, most: int) -> int:
    """Even length of the kernel at ``freq_hz``."""
    return int(np.clip(cycles * SAMPLE_RATE / freq_hz, fewest, most)) // 2 * 2


def kernels() -> NDArray[np.complex128]:
    """(2 banks * 288, 8192) kernels, each centred on sample 4096."""
    out = np.zeros((len(BANKS) * BINS, LONGEST), np.complex128)
    for bank, (cycles, fewest, most) in enumerate(BANKS):
        for index in range(BINS):
            freq = bin_frequency(index)
            count = window_samples(freq, cycles, fewest, most)
            time = np.arange(count) - count // 2
            window = np.hanning(count + 1)[:count]
            window /= window.sum()
            first = LONGEST // 2 - count // 2
            out[bank * BINS + index, first : first + count] = (
                2 * window * np.exp(-2j * np.pi * freq * time / SAMPLE_RATE)
            )
    return out


BALANCE_FLOOR = 1e-8
"""Power under which a bin has no balance: the level at which the logarithm above begins to bend."""


class _Banks(nn.Module):
    """The kernels as one matrix."""

    def __init__(self, count: int) -> None:
        super().__init__()
        table = kernels()[:count]
        weight = np.concatenate([table.real, table.imag]).T.astype(np.float32)
        self.register_buffer("weight", torch.from_numpy(weight), persistent=False)

    def forward(self, sound: Tensor) -> tuple[Tensor, Tensor]:
        """Real and imaginary parts, each (B, T, count), of sound (B, N)."""
        padded = F.pad(sound, (LONGEST // 2, LONGEST // 2))
        product = padded.unfold(1, LONGEST, HOP) @ self.weight
        half = product.shape[-1] // 2
        return product[..., :half], product[..., half:]


def _compressed(real: Tensor, imaginary: Tensor) -> Tensor:
    return torch.log1p(torch.sqrt(real**2 + imaginary**2 + 1e-12) * GAIN) / 4


class Features(nn.Module):
    """Sound (B, 2, N), mid and side, to features of its mid (B, 2, N / 512 + 1, 288); frame ``i`` is centred on sample
    ``512 i``."""

    def __init__(self) -> None:
        super().__init__()
        self.banks = _Banks(2 * BINS)

    @torch.no_grad()
    def forward(self, sound: Tensor) -> Tensor:
        """Features of sound whose mid has been scaled to a root mean square of 0.1."""
        size = _compressed(*self.banks(sound[:, 0]))
        return size.view(*size.shape[:2], len(BANKS), BINS).permute(0, 2, 1, 3)


class StereoFeatures(nn.Module):
    """Sound (B, 2, N), mid and side, to (B, 4, N / 512 + 1, 288): long and short bank of mid, long bank of side, and
    balance ``2 Re(M conj S) / (|M|^2 + |S|^2)`` of the long bank, -1 (right alone) to 1 (left alone)."""

    def __init__(self) -> None:
        super().__init__()
        self.mid = _Banks(2 * BINS)
        self.side = _Banks(BINS)

    @torch.no_grad()
    def forward(self, sound: Tensor) -> Tensor:
        """Features of sound whose mid has been scaled to a root mean square of 0.1."""
        real, imaginary = self.mid(sound[:, 0])
        side_real, side_imaginary = self.side(sound[:, 1])
        long_real, long_imaginary = real[..., :BINS], imaginary[..., :BINS]
        power = long_real**2 + long_imaginary**2 + side_real**2 + side_imaginary**2
        balance = 2 * (long_real * side_real + long_imaginary * side_imaginary) / (power + BALANCE_FLOOR)
        mid = _compressed(real, imaginary)
        banks = [mid[..., :BINS], mid[..., BINS:], _compressed(side_real, side_imaginary), balance]
        return torch.stack(banks, 1)
