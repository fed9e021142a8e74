"""Excerpts of POP909 songs (MIT, (c) 2020 Music X Lab; Wang et al., ISMIR 2020): real tunes over labelled changes."""

from __future__ import annotations

import lzma
import pickle
import random
from dataclasses import dataclass
from functools import cache
from pathlib import Path
from typing import Any

import numpy as np

from ..data.guard import assert_no_evaluation_song
from ..frames import PIECE_SEC
from .changes import Changes, Span
from .chords import QUALITIES, Chord
from .grid import Grid
from .notes import Note

_LETTERS = {"C": 0, "D": 2, "E": 4, "F": 5, "G": 7, "A": 9, "B": 11}
_NEAREST = {
    "hdim7": "dim", "dim7": "dim", "sus4(b7)": "sus4", "min6": "min", "maj9": "maj7", "min9": "min7", "9": "7",
    "minmaj7": "min", "11": "7", "13": "7",
}
_DEGREES = {"1": 0, "2": 2, "3": 4, "4": 5, "5": 7, "6": 9, "7": 11}


@dataclass(slots=True)
class PopExcerpt:
    """Twenty-four seconds of a song, transposed and at another speed.

    ``unknown`` holds stretches (start, end) whose chord has no name here; ``grid`` is None where beats are missing.
    """

    melody: list[Note]
    counter: list[Note]
    piano: list[Note]
    changes: Changes
    unknown: list[tuple[float, float]]
    grid: Grid | None


@cache
def _songs(path: str) -> dict[str, Any]:
    """All songs by id, as compact arrays: note deltas and lengths (1/200 s), pitch, velocity, track, chords, beats."""
    songs: dict[str, Any] = pickle.loads(lzma.decompress(Path(path).read_bytes()))
    assert_no_evaluation_song(list(songs))
    return songs


def check_songs(path: Path) -> int:
    """How many songs the file holds; raises ``ValueError`` when a song of an evaluation set is among them."""
    return len(_songs(str(path)))


def _read_label(label: str, transpose: int) -> Chord | None:
    """Chord of a Harte label, or None where its quality has no counterpart."""
    root_name, _, rest = label.partition(":")
    rest, _, bass_degree = rest.partition("/")
    quality = _NEAREST.get(rest, rest)
    if quality not in QUALITIES:
        return None
    root = (_LETTERS[root_name[0]] + root_name.count("#") - root_name.count("b") + transpose) % 12
    step = 0
    if bass_degree:
        step = _DEGREES.get(bass_degree[-1], 0) - bass_degree.count("b") + bass_degree.count("#")
    return Chord(root, quality, (root + step) % 12)


def _read_notes(song: Any, start: float, speed: float, transpose: int, rng: random.Random) -> list[list[Note]]:
    """Notes by track (melody, counter melody, piano) that begin within the excerpt."""
    deltas, lengths, pitches, velocities, tracks = song[:5]
    onsets = np.cumsum(deltas.astype(np.int64)) / 200.0
    out: list[list[Note]] = [[], [], []]
    for index in np.nonzero((onsets >= start) & (onsets < start + PIECE_SEC * speed))[0]:
        begin = float(onsets[index] - start) / speed
        end = min(begin + float(lengths[index]) / 200 / speed, PIECE_SEC - 0.02)
        midi = int(pitches[index]) + transpose
        if end - begin < 0.03 or not 24 <= midi < 108:
            continue
        loud = min(127, max(30, int(velocities[index]) + rng.randint(-4, 12)))
        out[min(2, int(tracks[index]))].append(Note(begin, end, midi, loud))
    return out


def _read_grid(song: Any, start: float, speed: float) -> Grid | None:
    """Whole bars of the excerpt, or None where fewer than two are found."""
    times = (song[6] / 1000.0 - start) / speed
    downbeats = song[7]
    bars: list[list[float]] = []
    for time, is_first in zip(times, downbeats):
        if is_first:
            bars.append([])
        if bars:
            bars[-1].append(float(time))
    whole = [
        [*bar, following[0]]
        for bar, following in zip(bars, bars[1:])
        if bar[0] >= 0 and bar[0] < PIECE_SEC and len(bar) == len(bars[len(bars) // 2])
    ]
    return Grid(whole, 2, 0.5) if len(whole) >= 2 else None


def draw_excerpt(path: Path, rng: random.Random) -> PopExcerpt:
    """An excerpt of a random song of the file at ``path``: -5 to +6 semitones, 0.92 to 1.09 of its speed."""
    songs = _songs(str(path))
    song = songs[rng.choice(sorted(songs))]
    speed, transpose = rng.uniform(0.92, 1.09), rng.randint(-5, 6)
    total = float(np.sum(song[0].astype(np.int64))) / 200.0
    start = rng.uniform(0, max(1.0, total - PIECE_SEC * speed))
    melody, counter, piano = _read_notes(song, start, speed, transpose, rng)
    spans: list[Span] = []
    unknown: list[tuple[float, float]] = []
    for begin, end, label in song[5]:
        begin, end = max(0.0, (begin - start) / speed), min(PIECE_SEC, (end - start) / speed)
        if end <= begin or label == "N" or ":" not in label:
            continue
        chord = _read_label(label, transpose)
        if chord is None:
            unknown.append((begin, end))
        else:
            spans.append(Span(begin, end, chord, chord.root, chord.quality in ("min", "min7")))
    return PopExcerpt(melody, counter, piano, Changes(spans, []), unknown, _read_grid(song, start, speed))
