"""An additive voice: partials with their own decay, for timbres that no soundfont has."""

from __future__ import annotations

import math
import random
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from ..frames import PIECE_SAMPLES, SAMPLE_RATE
from ..music.notes import Note, swell_gain

CONTROL_SEC = 0.004
"""Spacing of the points at which pitch is computed; the phase is interpolated between them."""


@dataclass(frozen=True, slots=True)
class AdditiveTimbre:
    """What stays the same over all notes of a part.

    ``formants`` holds (centre in Hz, gain); ``inharmonicity`` is B in f_k = k f_0 sqrt(1 + B k^2) (Fletcher 1964).
    """

    kind: str
    partials: int
    rolloff: float
    pluck_place: float
    inharmonicity: float
    even_gain: float
    formants: tuple[tuple[float, float], ...]
    formant_width: float
    decay_sec: float
    decay_per_partial: float
    attack_sec: float
    release_sec: float
    tremolo: float
    tremolo_hz: float
    pick_noise: float

    @staticmethod
    def draw(kind: str, rng: random.Random) -> AdditiveTimbre:
        """A random timbre of ``kind``: steel, pluck, voice, reed, organ or pure (a few weak overtones at most)."""
        attack = {"steel": 0.004, "pluck": 0.002, "voice": rng.uniform(0.03, 0.1), "reed": rng.uniform(0.02, 0.06)}
        return AdditiveTimbre(
            kind=kind,
            partials=rng.randint(1, 6) if kind == "pure" else rng.randint(7, 22),
            rolloff=rng.uniform(1.2, 3.0) if kind == "pure" else rng.uniform(0.5, 1.9),
            pluck_place=rng.uniform(0.05, 0.45),
            inharmonicity=rng.choice([0, 0, 1e-5, 5e-5, 2e-4]),
            even_gain=rng.choice([1, 1, 1, 0.3, 0.05]),
            formants=((rng.uniform(300, 900), rng.uniform(0.5, 3)), (rng.uniform(900, 2500), rng.uniform(0.3, 3))),
            formant_width=rng.uniform(0.2, 0.6),
            decay_sec=rng.uniform(0.3, 3.0),
            decay_per_partial=rng.uniform(0.05, 0.6),
            attack_sec=attack.get(kind, 0.01) * rng.uniform(0.6, 2),
            release_sec=rng.uniform(0.02, 0.15),
            tremolo=rng.choice([0, 0, 0, rng.uniform(0.1, 0.4)]),
            tremolo_hz=rng.uniform(3, 7),
            pick_noise=rng.uniform(0, 0.25) if kind in ("steel", "pluck") else 0.0,
        )

    def partial(self, number: int, freq_hz: float, since_sec: NDArray[np.float64]) -> NDArray[np.float64] | float:
        """Amplitude over time of a partial at ``freq_hz``."""
        if self.kind in ("steel", "pluck"):
            height = abs(math.sin(math.pi * number * self.pluck_place)) / number**self.rolloff
            speed = (1 / self.decay_sec + self.decay_per_partial * number * 1.2) * (1 if self.kind == "steel" else 2.5)
            decay: NDArray[np.float64] | float = np.exp(-since_sec * speed)
        elif self.kind == "voice":
            height = 0.3 / number**2
            for centre, gain in self.formants:
                height += gain * math.exp(-((math.log(freq_hz / centre) / self.formant_width) ** 2)) / math.sqrt(number)
            decay = 1.0
        elif self.kind == "organ":
            height, decay = (1 / number**0.7 if number in (1, 2, 3, 4, 6, 8) else 0.05), 1.0
        else:
            height, decay = 1 / number**self.rolloff, 1.0
        return height * decay * (self.even_gain if number % 2 == 0 else 1)


def render_additive(notes: list[Note], kind: str, seed: int, cents: float) -> NDArray[np.float32]:
    """Mono sound of ``notes``, ``PIECE_SAMPLES`` samples; the timbre follows from ``kind`` and ``seed``."""
    timbre = AdditiveTimbre.draw(kind, random.Random(seed))
    noise = np.random.default_rng(seed)
    sound = np.zeros(PIECE_SAMPLES + SAMPLE_RATE, np.float32)
    for note in notes:
        voice = _sound_note(note, timbre, cents, noise)
        first = int(note.start_sec * SAMPLE_RATE)
        count = min(len(voice), len(sound) - first)
        sound[first : first + count] += voice[:count]
    return sound[:PIECE_SAMPLES] * np.float32(0.2)


def _sound_note(
    note: Note, timbre: AdditiveTimbre, cents: float, noise: np.random.Generator
) -> NDArray[np.float32]:
    length = note.end_sec - note.start_sec + timbre.release_sec
    since = np.arange(int(length * SAMPLE_RATE)) / SAMPLE_RATE
    points = np.arange(0, length + CONTROL_SEC, CONTROL_SEC)
    freqs = 440 * 2 ** ((note.pitch(note.start_sec + points) + cents / 100 - 69) / 12)
    phase = 2 * np.pi * np.cumsum(np.interp(since, points, freqs)) / SAMPLE_RATE
    envelope = np.minimum(1, since / timbre.attack_sec)
    envelope *= np.clip((length - since) / timbre.release_sec, 0, 1)
    envelope *= swell_gain(since, note.swell_sec)
    if timbre.tremolo:
        envelope *= 1 - timbre.tremolo * (0.5 + 0.5 * np.sin(2 * np.pi * timbre.tremolo_hz * since))
    sound = np.zeros(len(since))
    for number in range(1, timbre.partials + 1):
        ratio = number * math.sqrt(1 + timbre.inharmonicity * number * number)
        freq = float(freqs.max()) * ratio
        if freq > SAMPLE_RATE * 0.46:
            break
        sound += timbre.partial(number, freq, since) * np.sin(phase * ratio)
    if timbre.pick_noise:
        burst = min(len(sound), int(0.02 * SAMPLE_RATE))
        sound[:burst] += timbre.pick_noise * noise.standard_normal(burst) * np.linspace(1, 0, burst)
    return (sound * envelope * (note.velocity / 100) ** 1.5).astype(np.float32)
