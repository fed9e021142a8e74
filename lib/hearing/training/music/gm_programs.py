"""General MIDI programs (counted from 0) by what they play here; names as in the General MIDI 1 sound set."""

from __future__ import annotations

import random

from .notes import SampledVoice

PROGRAMS: dict[str, tuple[int, ...]] = {
    "acoustic": (24, 25, 25, 25, 24),
    "electric": (26, 27, 27, 28, 26),
    "keys": (0, 0, 0, 1, 2, 3, 4, 5, 16, 17, 18, 19, 6, 7, 21),
    "pad": (48, 49, 50, 51, 52, 88, 89, 91, 44, 16),
    "bass": (32, 33, 33, 34, 35, 32, 33, 36, 38, 39, 32),
    "steel": (26, 27, 27, 28, 25, 24, 107, 26, 27, 30, 104, 105, 106, 29),
    "melody": (40, 40, 41, 42, 52, 53, 54, 56, 57, 60, 61, 64, 65, 66, 68, 69, 71, 72, 73, 74, 75, 21, 22, 22, 78, 79,
               80, 81, 82, 85, 105, 110, 11, 12, 0, 27, 27, 26, 28, 25, 46, 29),
    "plucked": (105, 15, 45, 11, 46, 12, 104, 107, 13, 14, 8, 9, 10, 106, 108, 3, 105),
}

DRUM_KITS: tuple[int, ...] = (0, 0, 8, 16, 24, 25, 32, 40, 48)


def draw_program(use: str, soundfonts: int, rng: random.Random) -> SampledVoice:
    """A sampled voice for ``use`` (a key of ``PROGRAMS``) from one of ``soundfonts`` fonts."""
    return SampledVoice(rng.randrange(soundfonts), 0, rng.choice(PROGRAMS[use]))


def draw_kit(soundfonts: int, rng: random.Random) -> SampledVoice:
    """A drum kit."""
    return SampledVoice(rng.randrange(soundfonts), 128, rng.choice(DRUM_KITS))
