"""Notes and parts: what an arrangement is made of before it sounds."""

from __future__ import annotations

from dataclasses import dataclass, field
from typing import Literal, NamedTuple

import numpy as np
from numpy.typing import NDArray

Role = Literal["steel", "melody", "harmony", "bass", "drums"]


class Arrival(NamedTuple):
    """The middle of a glide, the MIDI pitch arrived at, and whether a pedal or lever made it (None: no steel)."""

    time_sec: float
    midi: float
    by_pedal: bool | None = None


@dataclass(frozen=True, slots=True)
class Vibrato:
    """A sine on the pitch, fading in over a quarter of a second after ``after_sec``."""

    rate_hz: float
    depth_semitones: float
    after_sec: float


@dataclass(slots=True)
class Note:
    """One picked, bowed, blown or sung note.

    ``start_sec`` is the pick; ``audible_sec`` (later for a volume swell) is where a listener hears it begin, about
    10 dB under its height. ``curve`` holds (time, MIDI pitch) points of a glide, at least the first at ``start_sec``;
    without one the pitch stays at ``midi``.
    """

    start_sec: float
    end_sec: float
    midi: float
    velocity: int = 90
    curve: list[tuple[float, float]] | None = None
    arrivals: list[Arrival] = field(default_factory=list)
    vibrato: Vibrato | None = None
    swell_sec: float = 0.0
    audible_sec: float = -1.0

    @property
    def heard_sec(self) -> float:
        """Time at which the onset is labelled."""
        return self.audible_sec if self.audible_sec >= 0 else self.start_sec

    def centre_pitch(self, times_sec: NDArray[np.float64]) -> NDArray[np.float64]:
        """MIDI pitch without vibrato at ``times_sec`` (any shape)."""
        if self.curve is None:
            return np.full(np.shape(times_sec), float(self.midi))
        times, pitches = zip(*self.curve)
        return np.interp(times_sec, times, pitches)

    def vibrato_at(self, times_sec: NDArray[np.float64]) -> NDArray[np.float64]:
        """Deviation in semitones that the vibrato adds at ``times_sec``."""
        if self.vibrato is None:
            return np.zeros(np.shape(times_sec))
        since = np.asarray(times_sec) - self.start_sec
        fade = np.clip((since - self.vibrato.after_sec) / 0.25, 0, 1)
        return self.vibrato.depth_semitones * fade * np.sin(2 * np.pi * self.vibrato.rate_hz * since)

    def pitch(self, times_sec: NDArray[np.float64]) -> NDArray[np.float64]:
        """Sounding MIDI pitch at ``times_sec``."""
        return self.centre_pitch(times_sec) + self.vibrato_at(times_sec)

    @property
    def moves(self) -> bool:
        """Whether the pitch does anything but stand still."""
        return self.curve is not None or self.vibrato is not None or self.swell_sec > 0


def swell_gain(since_pick_sec: NDArray[np.float64], swell_sec: float) -> NDArray[np.float64]:
    """Amplitude (0 to 1) of a volume pedal opening over ``swell_sec``.

    The pedal is a quarter-sine, so that a third of the height (-10 dB) is reached after 0.2 of the swell.
    """
    if swell_sec <= 0:
        return np.ones(np.shape(since_pick_sec))
    return np.sin(0.5 * np.pi * np.clip(since_pick_sec / swell_sec, 0, 1))


AUDIBLE_SHARE_OF_SWELL = 0.206
"""Share of a swell after which its gain is 0.316, that is -10 dB: arcsin(0.316) / (pi / 2)."""


@dataclass(frozen=True, slots=True)
class SampledVoice:
    """An instrument of a General MIDI soundfont; ``soundfont`` counts from 0, bank 128 holds drum kits."""

    soundfont: int
    bank: int
    program: int


@dataclass(frozen=True, slots=True)
class ModelledVoice:
    """A voice computed from a model; the seed fixes its timbre."""

    kind: Literal["steel", "pluck", "voice", "reed", "organ", "pure", "string-loop"]
    seed: int


Voice = SampledVoice | ModelledVoice


@dataclass(slots=True)
class Part:
    """The notes of one instrument. ``gain_db`` is relative to the other parts of the same role."""

    role: Role
    voice: Voice
    notes: list[Note]
    gain_db: float = 0.0
