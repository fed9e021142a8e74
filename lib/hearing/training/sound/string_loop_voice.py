"""A plucked-string loop (Karplus and Strong 1983; Jaffe and Smith 1983) whose pitch follows bar and pedals.

The loop runs at a fixed pitch a little above the highest of the note; the glide is made by reading the result at a
varying speed, which bends all partials together as a bar does.
"""

from __future__ import annotations

import random
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray
from scipy.signal import lfilter

from ..frames import PIECE_SAMPLES, SAMPLE_RATE
from ..music.notes import Note, swell_gain

CONTROL_SEC = 0.004


@dataclass(frozen=True, slots=True)
class StringTimbre:
    """Strings, picks and pickup of one guitar.

    ``damping`` (0 to 1) is the share of the neighbouring sample in the loop's low-pass; ``decay_sec`` the time in
    which the fundamental falls by 60 dB; ``body_pole`` smooths the output like a tone control.
    """

    damping: float
    decay_sec: float
    pluck_place: float
    pickup_place: float
    brightness: float
    body_pole: float
    drive: float
    release_sec: float

    @staticmethod
    def draw(rng: random.Random) -> StringTimbre:
        """A random guitar between dull nylon and bright steel."""
        return StringTimbre(
            damping=rng.uniform(0.05, 0.5),
            decay_sec=rng.uniform(2.5, 11.0),
            pluck_place=rng.uniform(0.06, 0.35),
            pickup_place=rng.uniform(0.04, 0.25),
            brightness=rng.uniform(0.15, 0.95),
            body_pole=rng.uniform(0.0, 0.75),
            drive=rng.choice([0.0, 0.0, 0.0, rng.uniform(0.5, 2.5)]),
            release_sec=rng.uniform(0.02, 0.12),
        )


def _loop(freq_hz: float, count: int, timbre: StringTimbre, noise: np.random.Generator) -> NDArray[np.float64]:
    """``count`` samples of a string at ``freq_hz``, plucked once at the start."""
    delay = SAMPLE_RATE / freq_hz - timbre.damping
    whole = max(2, int(delay))
    share = delay - whole
    gain = 10 ** (-3 / (freq_hz * timbre.decay_sec))
    taps = np.zeros(whole + 3)
    taps[whole] = (1 - share) * (1 - timbre.damping)
    taps[whole + 1] = share * (1 - timbre.damping) + (1 - share) * timbre.damping
    taps[whole + 2] = share * timbre.damping
    burst = np.zeros(count)
    length = min(count, whole + 1)
    burst[:length] = noise.standard_normal(length)
    burst = lfilter([timbre.brightness], [1, timbre.brightness - 1], burst)
    for place in (timbre.pluck_place, timbre.pickup_place):
        lag = max(1, int(round(delay * place)))
        burst[lag:] -= 0.9 * burst[:-lag].copy()
    denominator = -gain * taps
    denominator[0] = 1.0
    return lfilter([1.0], denominator, burst)


def _sound_note(note: Note, timbre: StringTimbre, cents: float, noise: np.random.Generator) -> NDArray[np.float32]:
    length = note.end_sec - note.start_sec + timbre.release_sec
    count = int(length * SAMPLE_RATE)
    since = np.arange(count) / SAMPLE_RATE
    points = np.arange(0, length + CONTROL_SEC, CONTROL_SEC)
    freqs = 440 * 2 ** ((note.pitch(note.start_sec + points) + cents / 100 - 69) / 12)
    base = float(freqs[0])
    place = np.cumsum(np.interp(since, points, freqs / base))
    string = _loop(base, int(place[-1]) + 3, timbre, noise)
    sound = np.interp(place, np.arange(len(string)), string)
    sound = lfilter([1 - timbre.body_pole], [1, -timbre.body_pole], sound)
    if timbre.drive:
        peak = float(np.abs(sound).max()) + 1e-9
        sound = np.tanh(timbre.drive * sound / peak) * peak / timbre.drive
    envelope = np.clip((length - since) / timbre.release_sec, 0, 1) * swell_gain(since, note.swell_sec)
    return (sound * envelope * (note.velocity / 100) ** 1.5).astype(np.float32)


def render_string_loop(notes: list[Note], seed: int, cents: float) -> NDArray[np.float32]:
    """Mono sound of ``notes``, ``PIECE_SAMPLES`` samples; the guitar follows from ``seed``."""
    timbre = StringTimbre.draw(random.Random(seed))
    noise = np.random.default_rng(seed)
    sound = np.zeros(PIECE_SAMPLES + SAMPLE_RATE, np.float32)
    for note in notes:
        voice = _sound_note(note, timbre, cents, noise)
        first = int(note.start_sec * SAMPLE_RATE)
        count = min(len(voice), len(sound) - first)
        sound[first : first + count] += voice[:count]
    return sound[:PIECE_SAMPLES]
