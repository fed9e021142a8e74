"""Necks of steel guitars as tables of what can be picked where.

Tunings and changes: E9 with pedals A B C and levers F E D G, C6 lap and 8-string, E13, open D and open G, as given in
common charts of the makers (octaves of E9 as on the usual ten-string neck, F#4 highest written string 1).
"""

from __future__ import annotations

import random
from dataclasses import dataclass
from functools import cache

import numpy as np
from numpy.typing import NDArray

E9 = (66, 63, 68, 64, 59, 56, 54, 52, 50, 47)
"""Open strings 1 (farthest from the player) to 10, MIDI."""

E9_CHANGES: dict[str, dict[int, int]] = {
    "A": {5: 2, 10: 2},
    "B": {3: 1, 6: 1},
    "C": {4: 2, 5: 2},
    "F": {4: 1, 8: 1},
    "E": {4: -1, 8: -1},
    "D": {2: -1},
    "G": {1: 1, 7: 1},
}
"""Semitones by string of each pedal and lever."""

E9_ENGAGED: tuple[str, ...] = ("", "A", "B", "AB", "C", "BC", "F", "AF", "E", "EB", "D", "G", "AE")
"""Combinations in common use."""

E9_GRIPS: tuple[tuple[int, ...], ...] = (
    (3, 4), (3, 5), (4, 5), (5, 6), (4, 6), (6, 8), (5, 8), (8, 10), (6, 10), (1, 3), (1, 4), (2, 4), (1, 5), (2, 5),
    (5, 7), (4, 8), (3, 6), (5, 10), (4, 9), (6, 9), (3, 4, 5), (4, 5, 6), (5, 6, 8), (6, 8, 10), (3, 4, 6), (4, 6, 8),
    (1, 4, 5), (2, 4, 5), (5, 8, 10), (1,), (2,), (3,), (4,), (5,), (6,), (7,), (8,), (10,),
)

BAR_ONLY: tuple[tuple[int, ...], ...] = (
    (64, 60, 57, 55, 52, 48),
    (67, 64, 60, 57, 55, 52, 48, 45),
    (64, 61, 56, 52, 50, 47),
    (62, 57, 54, 50, 45, 38),
    (62, 59, 55, 50, 47, 43),
)
"""Lap tunings without pedals: C6 six and eight strings, E13, open D, open G."""


@dataclass(frozen=True, slots=True)
class Place:
    """A grip at a fret with changes engaged; ``pitches`` follow the strings of the grip."""

    fret: int
    engaged: int
    grip: int
    pitches: tuple[int, ...]


@dataclass(frozen=True, slots=True)
class Neck:
    """All places of a tuning.

    ``fret``, ``top``, ``size`` (voices) and ``classes`` (bit mask of pitch classes) are arrays over ``places``.
    """

    places: tuple[Place, ...]
    fret: NDArray[np.int64]
    top: NDArray[np.int64]
    size: NDArray[np.int64]
    classes: NDArray[np.int64]
    index: dict[tuple[int, int, int], int]
    engaged_count: int

    def fitting(self, pitch_classes: list[int], voices: int) -> NDArray[np.int64]:
        """Indices of the places with ``voices`` strings whose notes all lie in ``pitch_classes``."""
        allowed = sum(1 << pitch_class for pitch_class in set(pitch_classes))
        return np.nonzero(((self.classes & ~allowed) == 0) & (self.size == voices))[0]

    def fits(self, place: Place, pitch_classes: list[int]) -> bool:
        """Whether all notes of ``place`` lie in ``pitch_classes``."""
        return all(pitch % 12 in pitch_classes for pitch in place.pitches)

    def at(self, fret: int, engaged: int, grip: int) -> Place | None:
        """The place at a fret, or None where the neck ends."""
        found = self.index.get((fret, engaged, grip))
        return None if found is None else self.places[found]


def _build(strings: tuple[int, ...], shifts: list[list[int]], grips: list[tuple[int, ...]], last_fret: int) -> Neck:
    places: list[Place] = []
    for fret in range(last_fret + 1):
        for engaged, shift in enumerate(shifts):
            for number, grip in enumerate(grips):
                pitches = tuple(strings[string] + shift[string] + fret for string in grip)
                if len(set(pitches)) == len(pitches):
                    places.append(Place(fret, engaged, number, pitches))
    return Neck(
        tuple(places),
        np.array([place.fret for place in places]),
        np.array([max(place.pitches) for place in places]),
        np.array([len(place.pitches) for place in places]),
        np.array([sum(1 << (pitch % 12) for pitch in set(p % 12 for p in place.pitches)) for place in places]),
        {(place.fret, place.engaged, place.grip): position for position, place in enumerate(places)},
        len(shifts),
    )


@cache
def e9_neck() -> Neck:
    """The ten-string E9 neck with pedals and levers, frets 0 to 20."""
    shifts = []
    for engaged in E9_ENGAGED:
        shift = [0] * 10
        for change in engaged:
            for string, by in E9_CHANGES[change].items():
                shift[string - 1] = by if shift[string - 1] == 0 else max(shift[string - 1], by)
        shifts.append(shift)
    return _build(E9, shifts, [tuple(string - 1 for string in grip) for grip in E9_GRIPS], 20)


@cache
def lap_neck(number: int) -> Neck:
    """A neck without pedals (index into ``BAR_ONLY``), frets 0 to 19."""
    strings = BAR_ONLY[number]
    count = len(strings)
    grips: list[tuple[int, ...]] = [(string,) for string in range(count)]
    grips += [(string, string + step) for step in (1, 2, 3) for string in range(count - step)]
    grips += [(string, string + 1, string + 2) for string in range(count - 2)]
    return _build(strings, [[0] * count], grips, 19)


def draw_neck(rng: random.Random) -> Neck:
    """A neck: E9 in four of five pieces."""
    return e9_neck() if rng.random() < 0.8 else lap_neck(rng.randrange(len(BAR_ONLY)))
