"""Chords as the network names them, and chart numbers ("57", "2-7", "1/3") read into them."""

from __future__ import annotations

import random
import re
from dataclasses import dataclass

QUALITIES: dict[str, tuple[int, ...]] = {
    "maj": (0, 4, 7),
    "min": (0, 3, 7),
    "7": (0, 4, 7, 10),
    "maj7": (0, 4, 7, 11),
    "min7": (0, 3, 7, 10),
    "sus4": (0, 5, 7),
    "sus2": (0, 2, 7),
    "dim": (0, 3, 6),
    "maj6": (0, 4, 7, 9),
    "aug": (0, 4, 8),
}
"""Quality names in Harte syntax with their semitones above the root, in the order of the network's outputs."""

QUALITY_NAMES: tuple[str, ...] = tuple(QUALITIES)

NO_CHORD = 12 * len(QUALITIES)
"""Joint label of "no chord": 120. A chord is ``root * 10 + index of its quality``."""

NO_BASS = 12
UNKNOWN = -1
"""Label of frames whose chord nobody may learn from."""

_DEGREES = {"1": 0, "2": 2, "3": 4, "4": 5, "5": 7, "6": 9, "7": 11}
_SUFFIXES = {
    "": "maj",
    "-": "min",
    "7": "7",
    "maj7": "maj7",
    "-7": "min7",
    "sus": "sus4",
    "sus2": "sus2",
    "dim": "dim",
    "6": "maj6",
    "+": "aug",
}
_TOKEN = re.compile(r"^([b#]?)([1-7])(maj7|-7|sus2|sus|dim|7|6|-|\+|)(?:/([b#]?)([1-7]))?$")


@dataclass(frozen=True, slots=True)
class Chord:
    """Root and bass are pitch classes (0 = C). ``colour`` holds semitones above the root that are played but that the
    quality does not name, as the ninth of a dominant or the seventh of a diminished chord."""

    root: int
    quality: str
    bass: int
    colour: tuple[int, ...] = ()

    @property
    def label(self) -> int:
        """Joint label of root and quality, 0 to 119."""
        return self.root * len(QUALITIES) + QUALITY_NAMES.index(self.quality)

    @property
    def pitch_classes(self) -> list[int]:
        """Pitch classes of the quality, root first."""
        return [(self.root + step) % 12 for step in QUALITIES[self.quality]]

    @property
    def played_classes(self) -> list[int]:
        """Pitch classes of the quality and of the colour."""
        return self.pitch_classes + [(self.root + step) % 12 for step in self.colour]

    @property
    def inverted(self) -> bool:
        """Whether the chart writes another bass than the root."""
        return self.bass != self.root

    @property
    def fifth(self) -> int:
        """Pitch class of the fifth (perfect, diminished or augmented)."""
        return (self.root + QUALITIES[self.quality][2]) % 12

    def between(self, lowest: int, highest: int) -> list[int]:
        """MIDI pitches of the played classes from ``lowest`` to ``highest``, rising."""
        classes = set(self.played_classes)
        return [pitch for pitch in range(lowest, highest + 1) if pitch % 12 in classes]


def degree_to_semitones(accidental: str, degree: str) -> int:
    """Semitones above the tonic (0 to 11) of a degree of the major scale, as ``b7``."""
    shift = {"b": -1, "#": 1, "": 0}[accidental]
    return (_DEGREES[degree] + shift) % 12


def read_number(token: str, tonic: int) -> Chord:
    """Chord of a chart number in the key of ``tonic`` (pitch class).

    The bass after the slash is a degree of the key ("5/7": five with the seventh of the key below).
    Raises ``ValueError`` when the token is no chart number.
    """
    match = _TOKEN.match(token)
    if match is None:
        raise ValueError(f"no chart number: {token!r}")
    accidental, degree, suffix, bass_accidental, bass_degree = match.groups()
    root = (tonic + degree_to_semitones(accidental, degree)) % 12
    bass = root
    if bass_degree is not None:
        bass = (tonic + degree_to_semitones(bass_accidental, bass_degree)) % 12
    return Chord(root, _SUFFIXES[suffix], bass)


@dataclass(frozen=True, slots=True)
class Dressing:
    """How richly a song's plain chords are dressed, as probabilities."""

    dominant_seventh: float
    minor_seventh: float
    major_seventh: float
    sixth: float
    suspension: float
    colour: float

    @staticmethod
    def draw(rng: random.Random) -> Dressing:
        """Dressing of one song; a third of the songs stay plain."""
        if rng.random() < 0.35:
            return Dressing(0.15, 0.03, 0.0, 0.0, 0.02, 0.0)
        return Dressing(
            rng.uniform(0.2, 0.9),
            rng.uniform(0.05, 0.7),
            rng.choice([0.0, 0.05, 0.4]),
            rng.choice([0.0, 0.05, 0.25]),
            rng.choice([0.02, 0.06, 0.12]),
            rng.choice([0.0, 0.1, 0.3]),
        )

    def apply(self, chord: Chord, tonic: int, rng: random.Random) -> Chord:
        """The chord with a seventh, sixth, suspension or unnamed colour added where the song likes it."""
        degree = (chord.root - tonic) % 12
        quality, colour = chord.quality, chord.colour
        if quality == "maj" and not chord.inverted:
            draw = rng.random()
            if degree in (7, 2, 9, 4, 11) and draw < self.dominant_seventh:
                quality = "7"
            elif degree in (0, 5) and draw < self.major_seventh:
                quality = "maj7"
            elif degree in (0, 5) and draw < self.major_seventh + self.sixth:
                quality = "maj6"
            elif draw > 1 - self.suspension:
                quality = rng.choice(["sus4", "sus4", "sus2"])
        elif quality == "min" and rng.random() < self.minor_seventh:
            quality = "min7"
        if rng.random() < self.colour:
            colour = {"7": (2,), "dim": (9,), "min7": (2,), "maj7": (2,), "maj": (2,)}.get(quality, ())
        return Chord(chord.root, quality, chord.bass, colour)
