"""Damage: what rooms, tape, discs and coders do to a record, on batches of sound on the accelerator.

Every function takes sound (B, 2, N) at 22.05 kHz, left and right, and a generator and returns sound of the same shape.
Each treats a random share of the batch and leaves the rest as it is; ``damage`` ends with mid and side.
"""

from __future__ import annotations

import math

import torch
from torch import Tensor
from torch.nn import functional as F

from ..frames import SAMPLE_RATE

RMS = 0.1
"""Root mean square to which the mid of sound is scaled before the features."""

UNHARMED = 0.35
"""Share of the batch that is only narrowed and set to a level: well-kept records are many."""

MONO = 0.35
"""Share of the batch whose side is silent."""


def _uniform(low: float, high: float, shape: tuple[int, ...], generator: torch.Generator) -> Tensor:
    return torch.rand(shape, device=generator.device, generator=generator) * (high - low) + low


def _some(share: float, batch: int, generator: torch.Generator) -> Tensor:
    """(B, 1, 1) booleans, true for about ``share`` of the batch."""
    return torch.rand((batch, 1, 1), device=generator.device, generator=generator) < share


def to_mid_and_side(sound: Tensor) -> Tensor:
    """Left and right to their half sum and half difference."""
    return torch.stack([sound[:, 0] + sound[:, 1], sound[:, 0] - sound[:, 1]], 1) / 2


def normalise(sound: Tensor) -> Tensor:
    """Each record scaled so that its mid stands at ``RMS``; near-silence is left quiet."""
    level = sound.mean(1, keepdim=True).pow(2).mean(2, keepdim=True).sqrt().clamp(min=1e-5)
    return sound * (RMS / level)


def _tone_db(freqs: Tensor, batch: int, generator: torch.Generator) -> Tensor:
    """Smooth equaliser, low-pass and high-pass of a batch in dB, (B, 1, freqs); an eighth sound like old records."""
    device = generator.device
    points = torch.randn((batch, 1, 8), device=device, generator=generator) * _uniform(0, 5, (batch, 1, 1), generator)
    octave = (torch.log2(freqs.clamp(min=30) / 30) / 8.6 * 7).clamp(0, 6.999)
    left = octave.floor().long()
    share = (octave - left)[None]
    gain = points[..., left] * (1 - share) + points[..., left + 1] * share
    old = _some(0.12, batch, generator)
    low_pass = torch.where(_some(0.35, batch, generator), _uniform(3000, 10000, (batch, 1, 1), generator), 2e4)
    low_pass = torch.where(old, _uniform(2600, 5500, (batch, 1, 1), generator), low_pass)
    high_pass = torch.where(_some(0.4, batch, generator), _uniform(30, 130, (batch, 1, 1), generator), 5.0)
    high_pass = torch.where(old, _uniform(60, 260, (batch, 1, 1), generator), high_pass)
    gain = gain - torch.relu(torch.log2(freqs[None].clamp(min=1) / low_pass)) * 30
    gain = gain - torch.relu(torch.log2(high_pass / freqs[None].clamp(min=1))) * 12
    return gain.clamp(-60, 20)


def tone_and_room(sound: Tensor, generator: torch.Generator) -> Tensor:
    """Equaliser, band limits, reverberation of 0.15 to 1.3 s, more or less unlike on both sides, and single echoes, all
    in one pass of the spectrum."""
    batch, _, count = sound.shape
    device = sound.device
    size = count + SAMPLE_RATE
    freqs = torch.linspace(0, SAMPLE_RATE / 2, size // 2 + 1, device=device)
    spectrum = torch.fft.rfft(sound, n=size) * 10 ** (_tone_db(freqs, batch, generator) / 20)
    time = torch.arange(SAMPLE_RATE, device=device)[None, None] / SAMPLE_RATE
    decay = _uniform(0.15, 1.3, (batch, 1, 1), generator)
    noise = torch.randn((batch, 3, SAMPLE_RATE), device=device, generator=generator)
    alike = _uniform(0, 0.9, (batch, 1, 1), generator)
    noise = alike.sqrt() * noise[:, 2:] + (1 - alike).sqrt() * noise[:, :2]
    echoes = noise * torch.exp(-6.9 * time / decay)
    echoes = echoes * (time > _uniform(0, 0.03, (batch, 1, 1), generator))
    echoes = echoes / echoes.pow(2).sum(2, keepdim=True).sqrt()
    wet = torch.where(_some(0.55, batch, generator), _uniform(0.05, 0.55, (batch, 1, 1), generator), 0.0)
    room = 1 + torch.fft.rfft(echoes * wet, n=size)
    delay = _uniform(0.08, 0.4, (batch, 1, 1), generator)
    slap = torch.where(_some(0.12, batch, generator), _uniform(0.1, 0.35, (batch, 1, 1), generator), 0.0)
    room = room * (1 + slap * torch.exp(-2j * math.pi * freqs[None, None] * delay))
    return torch.fft.irfft(spectrum * room, n=size)[..., :count]


def compress(sound: Tensor, generator: torch.Generator) -> Tensor:
    """Evens out loudness over 30 to 200 ms in a quarter of the batch."""
    batch, _, count = sound.shape
    step = 256
    power = F.avg_pool1d(sound.pow(2).mean(1, keepdim=True), 2 * step + 1, stride=step, padding=step)
    power = F.avg_pool1d(power, 9, stride=1, padding=4) + 1e-6
    amount = torch.where(_some(0.25, batch, generator), _uniform(0.1, 0.35, (batch, 1, 1), generator), 0.0)
    gain = (power / power.mean(2, keepdim=True)) ** (-amount / 2)
    return sound * F.interpolate(gain.clamp(0.2, 4), size=count, mode="linear", align_corners=True)


def saturate(sound: Tensor, generator: torch.Generator) -> Tensor:
    """Overdrives a third of the batch by a hyperbolic tangent."""
    batch = len(sound)
    drive = torch.where(_some(0.3, batch, generator), _uniform(1, 6, (batch, 1, 1), generator), 0.05)
    return torch.tanh(sound * drive) / drive


def add_noise(sound: Tensor, generator: torch.Generator) -> Tensor:
    """White or pink noise at -75 to -28 dB under ``RMS``, and the crackle of worn discs in a tenth."""
    batch, _, count = sound.shape
    device = sound.device
    white = torch.randn(sound.shape, device=device, generator=generator)
    freqs = torch.linspace(0, SAMPLE_RATE / 2, count // 2 + 1, device=device)
    pink = torch.fft.irfft(torch.fft.rfft(white) / (freqs[None, None].clamp(min=20) / 500).sqrt(), n=count)
    noise = torch.where(_some(0.5, batch, generator), pink, white)
    sound = sound + noise * RMS * 10 ** (_uniform(-75, -28, (batch, 1, 1), generator) / 20)
    rate = _uniform(3, 60, (batch, 1, 1), generator) / SAMPLE_RATE
    ticks = torch.rand(sound.shape, device=device, generator=generator) < rate
    height = torch.where(_some(0.1, batch, generator), _uniform(0.05, 0.6, (batch, 1, 1), generator), 0.0)
    return sound + ticks * height * torch.randn(sound.shape, device=device, generator=generator)


def code_lossily(sound: Tensor, generator: torch.Generator) -> Tensor:
    """What a coder at a low rate leaves of mid and side: no treble, and holes where a band lies far under its neighbours.

    Short-time spectra (1024 samples, hop 256); in a quarter of the batch bins under a random share of their band's
    peak are dropped, with a random flutter from frame to frame, and what stays is roughened by the noise of coarse
    steps, 12 to 40 dB under that peak.
    """
    batch, channels, count = sound.shape
    window = torch.hann_window(1024, device=sound.device)
    spectrum = torch.stft(sound.flatten(0, 1), 1024, 256, window=window, return_complex=True)
    spectrum = spectrum.unflatten(0, (batch, channels))
    size = spectrum.abs()
    around = F.max_pool2d(size, (33, 1), stride=1, padding=(16, 0))
    around = F.max_pool2d(around, (1, 3), stride=1, padding=(0, 1))
    threshold = 10 ** (_uniform(-38, -16, (batch, 1, 1, 1), generator) / 20)
    flutter = 0.5 + torch.rand(size.shape, device=sound.device, generator=generator)
    keep = size > around * threshold * flutter
    freqs = torch.linspace(0, SAMPLE_RATE / 2, size.shape[2], device=sound.device)[None, None, :, None]
    keep = keep & (freqs < _uniform(4500, 13000, (batch, 1, 1, 1), generator))
    coded = _some(0.25, batch, generator)[..., None]
    steps = around * 10 ** (_uniform(-40, -12, (batch, 1, 1, 1), generator) / 20)
    rough = torch.randn((*size.shape, 2), device=sound.device, generator=generator)
    spectrum = torch.where(coded, (spectrum + torch.view_as_complex(rough) * steps * 0.7) * keep, spectrum)
    sound = torch.istft(spectrum.flatten(0, 1), 1024, 256, window=window, length=count)
    return sound.unflatten(0, (batch, channels))


def narrow(sound: Tensor, generator: torch.Generator) -> Tensor:
    """Mid and side with the side silent in ``MONO`` of the batch and fainter than it was in a third of the rest."""
    batch = len(sound)
    width = torch.where(_some(0.35, batch, generator), _uniform(0.1, 1, (batch, 1, 1), generator), 1.0)
    width = torch.where(_some(MONO, batch, generator), 0.0, width)
    return torch.cat([sound[:, :1], sound[:, 1:] * width], 1)


@torch.no_grad()
def damage(sound: Tensor, generator: torch.Generator) -> Tensor:
    """All of the above in the order of a record's life, where it comes to harm, then a random level of -5 to +5 dB around ``RMS``.

    Takes left and right, returns mid and side.
    """
    harmed = saturate(normalise(tone_and_room(sound, generator)), generator)
    harmed = add_noise(normalise(compress(harmed, generator)), generator)
    harmed = code_lossily(to_mid_and_side(harmed), generator)
    both = torch.where(_some(UNHARMED, len(sound), generator), to_mid_and_side(normalise(sound)), harmed)
    both = narrow(both, generator)
    level = both[:, :1].pow(2).mean(2, keepdim=True).sqrt().clamp(min=1e-5)
    return both * (RMS / level) * 10 ** (_uniform(-5, 5, (len(sound), 1, 1), generator) / 20)
