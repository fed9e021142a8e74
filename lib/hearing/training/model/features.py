"""What the network sees: two banks of windowed complex exponentials, three bins to the semitone.

Bin ``k`` stands at MIDI pitch ``24 + (k - 1) / 3``. Each kernel is a Hann window of ``n`` samples, of sum 1, times
``2 exp(-2 pi i f t / rate)`` with ``t`` counted from the middle sample; the long bank takes
``n = clip(40 rate / f, 1024, 8192)`` (fine pitch), the short one ``n = clip(12 rate / f, 512, 2048)`` (fine time),
both rounded down to even. The feature is ``ln(1 + 10^4 |X|) / 4`` of sound at a root mean square of 0.1: a constant-Q
transform after Brown (1991) with bounded windows.
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


class Features(nn.Module):
    """Sound (B, N) to features (B, 2, N / 512 + 1, 288); frame ``i`` is centred on sample ``512 i``."""

    def __init__(self) -> None:
        super().__init__()
        table = kernels()
        weight = np.concatenate([table.real, table.imag]).T.astype(np.float32)
        self.register_buffer("weight", torch.from_numpy(weight), persistent=False)

    @torch.no_grad()
    def forward(self, sound: Tensor) -> Tensor:
        """Features of sound that has been scaled to a root mean square of 0.1."""
        padded = F.pad(sound, (LONGEST // 2, LONGEST // 2))
        product = padded.unfold(1, LONGEST, HOP) @ self.weight
        half = product.shape[-1] // 2
        size = torch.sqrt(product[..., :half] ** 2 + product[..., half:] ** 2 + 1e-12)
        banks = size.view(*size.shape[:2], len(BANKS), BINS)
        return (torch.log1p(banks * GAIN) / 4).permute(0, 2, 1, 3)
