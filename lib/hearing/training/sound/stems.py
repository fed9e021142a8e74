"""Stems: the sound of the players of an arrangement, apart, so that training can mix and place them anew."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from ..frames import PIECE_SAMPLES, SAMPLE_RATE
from ..music.arrangement import Arrangement
from ..music.notes import ModelledVoice, Note, Part, SampledVoice
from .additive_voice import render_additive
from .fluid_synth import Sampler
from .string_loop_voice import render_string_loop

STEMS: tuple[str, ...] = ("steel", "melody", "harmony", "otherHarmony", "bass", "drums")
"""Stems in the order in which they are stored. Those who play the chords take turns between two stems, so that they can
stand at different places between left and right."""

STEM_PEAK = 30000
"""Height of the loudest sample of a stem as stored (16 bit)."""


@dataclass(frozen=True, slots=True)
class Stems:
    """``sound``: (6 stems, samples) int16. ``level``: (6,) root mean square of the sounding parts over the peak, 0
    for a stem that is silent; it says by how much to scale a stem for a wanted loudness."""

    sound: NDArray[np.int16]
    level: NDArray[np.float32]


def _modelled(part: Part, voice: ModelledVoice, cents: float) -> NDArray[np.float32]:
    notes: list[Note] = part.notes
    if voice.kind == "string-loop":
        return render_string_loop(notes, voice.seed, cents)
    return render_additive(notes, voice.kind, voice.seed, cents)


def sounding_level(sound: NDArray[np.float32]) -> float:
    """Root mean square over the 50 ms blocks within 35 dB of the loudest block; 0 for silence."""
    block = SAMPLE_RATE // 20
    power = np.mean(sound[: len(sound) // block * block].reshape(-1, block).astype(np.float64) ** 2, axis=1)
    loudest = float(power.max())
    if loudest < 1e-12:
        return 0.0
    return float(np.sqrt(power[power > loudest * 10**-3.5].mean()))


def parts_of_stems(parts: list[Part]) -> list[list[Part]]:
    """The parts that sound in each of ``STEMS``."""
    by_stem: dict[str, list[Part]] = {stem: [] for stem in STEMS}
    harmonies = 0
    for part in parts:
        if part.role == "harmony":
            by_stem["otherHarmony" if harmonies % 2 else "harmony"].append(part)
            harmonies += 1
        else:
            by_stem[part.role].append(part)
    return list(by_stem.values())


def render_stems(piece: Arrangement, sampler: Sampler) -> Stems:
    """Sounds every part of ``piece`` into its stem."""
    sound = np.zeros((len(STEMS), PIECE_SAMPLES), np.int16)
    level = np.zeros(len(STEMS), np.float32)
    for index, parts in enumerate(parts_of_stems(piece.parts)):
        if not parts:
            continue
        stem = np.zeros(PIECE_SAMPLES, np.float32)
        sampled = [(part.voice, part.notes, part.gain_db) for part in parts if isinstance(part.voice, SampledVoice)]
        if sampled:
            stem += sampler.render(sampled, 0.0 if STEMS[index] == "drums" else piece.cents)
        reference = sounding_level(stem)
        for part in parts:
            if isinstance(part.voice, ModelledVoice):
                voice = _modelled(part, part.voice, piece.cents)
                own = sounding_level(voice)
                scale = reference / own if reference > 0 and own > 0 else 1.0
                stem += voice * np.float32(scale * 10 ** (part.gain_db / 20))
        peak = float(np.abs(stem).max())
        if not np.isfinite(peak) or peak < 1e-6:
            continue
        sound[index] = np.round(stem * (STEM_PEAK / peak)).astype(np.int16)
        level[index] = sounding_level(stem) / peak
    return Stems(sound, level)
