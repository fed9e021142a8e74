"""What is true at every frame of an arrangement: notes by semitone, chords, beats.

All arrays have ``PIECE_FRAMES`` (T) rows; note arrays have 96 columns, semitone 0 = C1.
"""

from __future__ import annotations

import math
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from ..frames import FRAMES_PER_SEC, LOWEST_MIDI, PIECE_FRAMES, SEMITONES
from ..music.arrangement import Arrangement
from ..music.chords import NO_BASS, NO_CHORD, UNKNOWN
from ..music.bass_line import bass_line
from ..music.notes import Arrival, Note, Role

ONSET_HALF_WIDTH = 1.6
ARRIVAL_HALF_WIDTH = 2.2
BEAT_HALF_WIDTH = 2.5
"""Half widths, in frames, of the triangles that stand on sub-frame times."""

UNISON_SEC = 0.06
"""A pick of the steel with a stroke of the band within this time on the same semitone is a unison."""

BY_BAR, BY_PEDAL = 1, 2
"""What made a glide of the steel arrive, in the map ``mechanism``."""

FEWEST_BEATS = 8
"""Pieces with fewer beats teach no beats."""


@dataclass(slots=True)
class FrameLabels:
    """Labels of a piece.

    ``onset``, ``steelOnset``, ``bandOnset``, ``bassOnset``, ``arrival`` (T, 96) and ``beat`` (T, 2: beat, downbeat): height of
    triangles, 0 to 255. The steel's onsets are its picks alone, whatever the band strikes, the band's those of all others.
    ``frame``, ``steel``, ``melody``, ``bass`` (T, 96): 1 where a note, a steel note, another melody note, a note of the
    bass line (``music.bass_line``) sounds.
    ``unison`` (T, 96): 1 about the picks of the steel that the band strikes too. ``mechanism`` (T, 96): ``BY_BAR`` or
    ``BY_PEDAL`` where a glide of the steel arrives, 0 elsewhere.
    ``offset`` (T, 96): deviation from the semitone in cents, vibrato in it; ``centre``: the same without vibrato, also
    for the frames in which an onset or arrival announces itself.
    ``chord`` (T, 2): joint label 0 to 120 and bass 0 to 12, -1 where unknown.
    """

    onset: NDArray[np.uint8]
    steelOnset: NDArray[np.uint8]  # noqa: N815 - maps bear the names that the manifest of the weights gives
    bandOnset: NDArray[np.uint8]  # noqa: N815
    bassOnset: NDArray[np.uint8]  # noqa: N815
    frame: NDArray[np.uint8]
    steel: NDArray[np.uint8]
    melody: NDArray[np.uint8]
    bass: NDArray[np.uint8]
    arrival: NDArray[np.uint8]
    unison: NDArray[np.uint8]
    mechanism: NDArray[np.uint8]
    offset: NDArray[np.int8]
    centre: NDArray[np.int8]
    chord: NDArray[np.int16]
    beat: NDArray[np.uint8]
    has_beats: bool


def _triangle(target: NDArray[np.uint8], frame: float, column: int, half_width: float) -> None:
    """Raises ``target`` to a triangle around a fractional frame."""
    reach = math.ceil(half_width)
    for index in range(math.floor(frame) - reach, math.floor(frame) + reach + 2):
        if 0 <= index < len(target):
            height = int(255 * max(0.0, 1 - abs(index - frame) / half_width))
            target[index, column] = max(int(target[index, column]), height)


class LabelWriter:
    """Writes the notes of an arrangement into label arrays; later notes win where two share a semitone."""

    def __init__(self, cents: float) -> None:
        """``cents`` is how far the piece stands from A4 = 440 Hz."""
        self.shift = cents / 100 - LOWEST_MIDI
        self.struck: list[list[float]] = [[] for _ in range(SEMITONES)]

        def empty(kind: type, columns: int) -> NDArray[np.generic]:
            return np.zeros((PIECE_FRAMES, columns), kind)

        self.labels = FrameLabels(
            *(empty(np.uint8, SEMITONES) for _ in range(11)),  # type: ignore[arg-type]
            offset=empty(np.int8, SEMITONES),  # type: ignore[arg-type]
            centre=empty(np.int8, SEMITONES),  # type: ignore[arg-type]
            chord=np.full((PIECE_FRAMES, 2), UNKNOWN, np.int16),
            beat=empty(np.uint8, 2),  # type: ignore[arg-type]
            has_beats=False,
        )

    def note(self, note: Note, role: Role, in_bass_line: bool) -> None:
        """Adds one note; a swell begins where it is audible."""
        labels = self.labels
        first = max(0, math.ceil(note.heard_sec * FRAMES_PER_SEC - 0.3))
        last = min(PIECE_FRAMES - 1, math.floor(note.end_sec * FRAMES_PER_SEC + 0.3))
        if last < first:
            return
        frames = np.arange(first, last + 1)
        times = np.clip(frames / FRAMES_PER_SEC, note.start_sec, note.end_sec)
        centre = note.centre_pitch(times) + self.shift
        semitone = np.round(centre).astype(int)
        inside = (semitone >= 0) & (semitone < SEMITONES)
        frames, times, centre, semitone = frames[inside], times[inside], centre[inside], semitone[inside]
        if len(frames) == 0:
            return
        labels.frame[frames, semitone] = 1
        cents = np.round((centre - semitone) * 100)
        labels.centre[frames, semitone] = cents.astype(np.int8)
        shaken = cents + 100 * note.vibrato_at(times)
        labels.offset[frames, semitone] = np.clip(np.round(shaken), -60, 60).astype(np.int8)
        if role == "steel":
            labels.steel[frames, semitone] = 1
        elif role == "melody":
            labels.melody[frames, semitone] = 1
        onsets = [labels.onset, labels.steelOnset if role == "steel" else labels.bandOnset]
        if in_bass_line:
            labels.bass[frames, semitone] = 1
            onsets.append(labels.bassOnset)
        for target in onsets:
            self._announce(note.heard_sec, float(centre[0]), target, ONSET_HALF_WIDTH)
        if role == "steel":
            self._unison(note.heard_sec, int(semitone[0]))
        else:
            self.struck[int(semitone[0])].append(note.heard_sec)
        for arrival in note.arrivals:
            if arrival.time_sec > note.heard_sec + 0.03:
                self._announce(arrival.time_sec, arrival.midi + self.shift, labels.arrival, ARRIVAL_HALF_WIDTH)
                self._mechanism(arrival)

    def _announce(self, time_sec: float, pitch: float, target: NDArray[np.uint8], half_width: float) -> None:
        """Sets a triangle, and the pitch of the frames in which the note is announced but not yet there."""
        semitone = round(pitch)
        if not 0 <= semitone < SEMITONES:
            return
        frame = time_sec * FRAMES_PER_SEC
        _triangle(target, frame, semitone, half_width)
        for index in range(max(0, math.floor(frame) - 2), min(PIECE_FRAMES, math.floor(frame) + 4)):
            if not self.labels.frame[index, semitone] and not self.labels.centre[index, semitone]:
                self.labels.centre[index, semitone] = round(100 * (pitch - semitone))

    def _unison(self, time_sec: float, semitone: int) -> None:
        if any(abs(other - time_sec) < UNISON_SEC for other in self.struck[semitone]):
            frame = round(time_sec * FRAMES_PER_SEC)
            self.labels.unison[max(0, frame - 2) : frame + 3, semitone] = 1

    def _mechanism(self, arrival: Arrival) -> None:
        semitone = round(arrival.midi + self.shift)
        if arrival.by_pedal is not None and 0 <= semitone < SEMITONES:
            frame = round(arrival.time_sec * FRAMES_PER_SEC)
            kind = BY_PEDAL if arrival.by_pedal else BY_BAR
            self.labels.mechanism[max(0, frame - 1) : frame + 2, semitone] = kind

    def changes(self, piece: Arrangement) -> None:
        """Adds chord and bass labels."""
        if not piece.chords_known:
            return
        chord = self.labels.chord
        chord[:, 0], chord[:, 1] = NO_CHORD, NO_BASS
        for span in piece.changes.spans:
            first, last = round(span.start_sec * FRAMES_PER_SEC), round(span.end_sec * FRAMES_PER_SEC)
            chord[first:last] = (span.chord.label, span.chord.bass)
        for start, end in piece.unknown_chords:
            chord[round(start * FRAMES_PER_SEC) : round(end * FRAMES_PER_SEC)] = UNKNOWN

    def beats(self, piece: Arrangement) -> None:
        """Adds beats and downbeats."""
        self.labels.has_beats = len(piece.beats) >= FEWEST_BEATS
        for time, is_downbeat in piece.beats:
            _triangle(self.labels.beat, time * FRAMES_PER_SEC, 0, BEAT_HALF_WIDTH)
            if is_downbeat:
                _triangle(self.labels.beat, time * FRAMES_PER_SEC, 1, BEAT_HALF_WIDTH)


def label_frames(piece: Arrangement) -> FrameLabels:
    """Labels of ``piece``; the steel is written last, so that its pitch wins over a unison of the band."""
    writer = LabelWriter(piece.cents)
    order: tuple[Role, ...] = ("harmony", "bass", "melody", "steel")
    lowest = {id(note) for note in bass_line(piece.parts)}
    for role in order:
        for part in piece.parts:
            if part.role == role:
                for note in part.notes:
                    writer.note(note, role, id(note) in lowest)
    writer.changes(piece)
    writer.beats(piece)
    return writer.labels
