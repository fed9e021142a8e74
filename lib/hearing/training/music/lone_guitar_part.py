"""A guitar with nobody beside it: finger patterns, alternating thumb, strums, stabs and walks, loosely in time."""

from __future__ import annotations

import random

from .changes import Changes, Span
from .comping_part import CompingPlayer
from .grid import Grid
from .notes import Note

FINGER_ORDERS: tuple[tuple[int, ...], ...] = (
    (0, 1, 2), (0, 2, 1), (2, 1, 0), (0, 1, 2, 1), (1, 0, 2, 0), (0, 2, 1, 2), (0, 1, 0, 2), (1, 2, 0),
)
"""Orders in which index, middle and ring finger pick the three upper strings."""


class LoneGuitarist(CompingPlayer):
    """Keeps one pattern through the piece, as players do, and bends it a little in every bar.

    Styles: ``pattern``, ``thumb``, ``strum``, ``bass-strum``, ``stabs``, ``walk``; those that end in ``-16`` divide the
    beat once more.
    """

    def __init__(self, grid: Grid, changes: Changes, style: str, timing_sec: float, rng: random.Random) -> None:
        """``timing_sec`` is the spread of onsets around the grid."""
        style, sixteenths, _ = style.partition("-16")
        self.finer = 2 if sixteenths else 1
        super().__init__(grid, changes, style, timing_sec, rng)
        self.lowest, self.highest = rng.choice([(40, 64), (40, 67), (43, 69), (38, 62), (45, 71)])
        self.strum_sec = rng.uniform(0.004, 0.034)
        self.loose = rng.choice([0.0, 0.04, 0.12])
        self.slots = grid.beats_per_bar * grid.beat_parts * self.finer
        self.order = rng.choice(FINGER_ORDERS)
        self.accents_back = rng.random() < 0.5
        self.tune = rng.choice([0.0, 0.0, 0.3, 0.6])
        self.runs = rng.choice([0.0, 0.2, 0.5])
        self.ring_beats = rng.choice([0.5, 1.0, 2.0, 2.0])
        self.played = self._draw_rhythm()

    def _draw_rhythm(self) -> list[bool]:
        """Which parts of a bar are struck: mostly beats in strums, anything in stabs."""
        per_beat = self.grid.beat_parts * self.finer
        if self.style == "stabs":
            played = [self.rng.random() < (0.45 if slot % per_beat == 0 else 0.34) for slot in range(self.slots)]
            played[self.rng.choice([0, 0, per_beat])] = True
            return played
        off_beat = self.rng.choice([0.25, 0.5, 0.8])
        return [slot % per_beat == 0 or self.rng.random() < off_beat for slot in range(self.slots)]

    def _bar(self, bar: int) -> None:
        per_beat = self.grid.beat_parts * self.finer
        turn = 0
        for slot in range(self.slots):
            place = slot / per_beat
            span = self.changes.span_at(self.grid.at(bar, place) + 0.01)
            chord = self.voicing(self.grid.at(bar, place))
            if span is None or len(chord) < 4:
                continue
            struck = self.played[slot] ^ (self.rng.random() < self.loose)
            turn = self._play(bar, slot, place, span, chord, struck, turn)
        self._run_into_next(bar)

    def _bass(self, span: Span, chord: list[int], other: bool) -> int:
        """The thumb's note: the lowest bass of the chord, or (``other``) its fifth or the octave."""
        low = [pitch for pitch in range(self.lowest, self.lowest + 12) if pitch % 12 == span.chord.bass][0]
        if not other or span.chord.inverted:
            return low
        near = [pitch for pitch in chord if pitch % 12 == span.chord.fifth and abs(pitch - low) <= 9]
        return near[0] if near else low + 12

    def _top(self, span: Span, pitch: int) -> int:
        """``pitch``, or where the upper voice has a tune the scale step beside it."""
        if self.rng.random() >= self.tune:
            return pitch
        near = [step for step in range(pitch - 3, pitch + 6) if step % 12 in span.scale]
        return self.rng.choice(near)

    def _play(self, bar: int, slot: int, place: float, span: Span, chord: list[int], struck: bool, turn: int) -> int:
        """One part of the bar; returns whose turn it is among the fingers."""
        rng, per_bar = self.rng, self.grid.beats_per_bar
        per_beat = self.grid.beat_parts * self.finer
        on_beat, beat = slot % per_beat == 0, int(place)
        unit = 1 / per_beat
        back = on_beat and (beat % 2 == 1 if per_bar != 3 else beat > 0)
        accent = 10 if back == self.accents_back and on_beat else (0 if on_beat else -8)
        upper = [pitch for pitch in chord if pitch > self.lowest + 9] or chord
        if self.style == "pattern":
            thumb = on_beat and (beat == 0 or (per_bar == 4 and beat == 2) or per_bar == 2)
            if thumb:
                self.hit(bar, place, max(self.ring_beats, 1), [self._bass(span, chord, beat > 0)], 6)
                if rng.random() < 0.25:
                    self.hit(bar, place, self.ring_beats, [self._top(span, upper[-1])])
            elif struck:
                finger = self.order[turn % len(self.order)]
                pitch = upper[-3:][min(finger, len(upper[-3:]) - 1)]
                self.hit(bar, place, self.ring_beats, [self._top(span, pitch) if finger == 2 else pitch], -4)
                return turn + 1
        elif self.style == "thumb":
            if on_beat:
                self.hit(bar, place, 1, [self._bass(span, chord, beat % 2 == 1)], 5)
            if struck and (not on_beat or rng.random() < 0.3):
                self.hit(bar, place, self.ring_beats, [self._top(span, rng.choice(upper[-3:]))], accent)
        elif self.style == "bass-strum":
            low = beat == 0 if per_bar == 3 else (beat % 2 == 0 or per_bar == 2)
            if on_beat and low:
                self.hit(bar, place, 1, [self._bass(span, chord, beat > 0)], 8)
            elif struck:
                self.hit(bar, place, unit if self.short else 1, upper[-4:], accent, up=not on_beat)
        elif self.style == "walk":
            if on_beat:
                near = [pitch for pitch in range(self.lowest, self.lowest + 14) if pitch % 12 in span.scale]
                root = self._bass(span, chord, False)
                self.hit(bar, place, 0.95, [root if beat == 0 else rng.choice(near)], 6)
            if struck and not on_beat:
                self.hit(bar, place, unit, upper[-3:], accent)
        elif struck:
            size = rng.randint(3, 6) if self.style == "strum" else rng.randint(2, 4)
            pitches = chord[:size] if on_beat and self.style == "strum" else upper[-size:]
            length = unit * (0.5 if self.short else 1.2) if self.style == "stabs" or self.short else 1.0
            self.hit(bar, place, length, pitches, accent, up=slot % 2 == 1)
        return turn

    def _run_into_next(self, bar: int) -> None:
        """Two low scale steps into the next chord's bass, in place of what the bar ends with."""
        last = self.grid.beats_per_bar
        here = self.changes.span_at(self.grid.at(bar, last - 0.1))
        after = self.changes.span_at(self.grid.at(bar + 1, 0))
        if here is None or after is None or here is after or self.rng.random() >= self.runs:
            return
        unit = 1 / self.grid.beat_parts
        begin = self.grid.at(bar, last - 2 * unit) - 0.03
        target = self.lowest + (after.chord.bass - self.lowest) % 12
        below = [pitch for pitch in range(target - 7, target) if pitch % 12 in here.scale and pitch >= 36][-2:]
        if len(below) < 2 or here.start_sec > begin - 0.05:
            return
        kept: list[Note] = []
        for note in self.notes:
            if note.start_sec < begin:
                note.end_sec = max(note.start_sec + 0.05, min(note.end_sec, begin + 0.02 if note.midi < 55 else 99.0))
                kept.append(note)
        self.notes = kept
        for index, pitch in enumerate(below):
            self.hit(bar, last - (2 - index) * unit, unit, [pitch], 4)
