"""Chordal accompaniment: strums, rolls, picking, pads."""

from __future__ import annotations

import random

from ..frames import PIECE_SEC
from .changes import Changes
from .grid import Grid
from .notes import Note


class CompingPlayer:
    """Plays chords in one style on one instrument."""

    def __init__(self, grid: Grid, changes: Changes, style: str, timing_sec: float, rng: random.Random) -> None:
        """Draws register, strum speed and touch; ``timing_sec`` is the spread of onsets around the grid."""
        self.grid, self.changes, self.style, self.rng = grid, changes, style, rng
        self.timing_sec = timing_sec
        self.lowest = rng.choice([40, 40, 43, 45, 48, 52])
        self.highest = self.lowest + rng.randint(17, 28)
        self.strum_sec = rng.uniform(0.002, 0.022)
        self.short = rng.random() < 0.4
        self.loud = rng.randint(62, 100)
        self.low_notes = rng.random() < 0.75
        self.pattern = [rng.random() < 0.72 for _ in range(16)]
        self.pattern[0] = True
        self.notes: list[Note] = []

    def voicing(self, time_sec: float) -> list[int]:
        """Pitches of the chord at ``time_sec`` in the player's register, rising; empty where nothing sounds."""
        span = self.changes.span_at(time_sec + 0.01)
        return [] if span is None else span.chord.between(self.lowest, self.highest)

    def hit(self, bar: int, beat: float, beats: float, pitches: list[int], accent: int = 0, up: bool = False) -> None:
        """Strikes ``pitches`` one after the other, from below or (``up``) from above."""
        time = self.grid.at(bar, beat) + self.rng.gauss(0, self.timing_sec)
        length = self.grid.at(bar, beat + beats) - self.grid.at(bar, beat)
        for index, pitch in enumerate(reversed(pitches) if up else pitches):
            start = max(0.0, time + index * self.strum_sec * self.rng.uniform(0.6, 1.4))
            end = min(time + max(0.07, length), PIECE_SEC - 0.05)
            if end - start < 0.05:
                continue
            velocity = self.loud + accent + self.rng.randint(-9, 9)
            self.notes.append(Note(start, end, pitch, max(22, min(122, velocity))))

    def part(self) -> list[Note]:
        """The whole part."""
        for bar in self.grid.music_bars():
            if self.style == "pad":
                continue
            if self.rng.random() < 0.015:
                continue
            self._bar(bar)
        if self.style == "pad":
            self._pad()
        return self.changes.play_pushes(self.notes)

    def _pad(self) -> None:
        size = self.rng.choice([2, 3, 3, 4])
        for span in self.changes.spans:
            pitches = span.chord.between(max(48, self.lowest), 79)
            first = self.rng.randrange(max(1, len(pitches) - size))
            for pitch in pitches[first : first + size]:
                start = span.start_sec + abs(self.rng.gauss(0, self.timing_sec))
                end = min(span.end_sec, PIECE_SEC - 0.05)
                if end - start > 0.08:
                    self.notes.append(Note(start, end, pitch, self.rng.randint(48, 90)))

    def _bar(self, bar: int) -> None:
        parts, per_bar = self.grid.beat_parts, self.grid.beats_per_bar
        for slot in range(per_bar * parts):
            beat = slot // parts
            on_beat = slot % parts == 0
            place = slot / parts
            chord = self.voicing(self.grid.at(bar, place))
            if chord:
                self._slot(bar, slot, place, beat, on_beat, chord)

    def _slot(self, bar: int, slot: int, place: float, beat: int, on_beat: bool, chord: list[int]) -> None:
        """Plays what the style has at one part of a beat."""
        rng, style = self.rng, self.style
        part = 1 / self.grid.beat_parts
        per_bar = self.grid.beats_per_bar
        ring = 0.5 if self.short else 1.0
        span = self.changes.span_at(self.grid.at(bar, place) + 0.01)
        bass = [pitch for pitch in chord if span and pitch % 12 == span.chord.bass] or chord
        if style in ("boom-chick", "oom-pah"):
            strong = beat == 0 if per_bar == 3 else (on_beat and (beat % 2 == 0 if per_bar == 4 else True))
            if on_beat and strong and self.low_notes:
                fifths = [pitch for pitch in chord if span and pitch % 12 == span.chord.fifth]
                low = fifths[0] if beat == 2 and fifths and span and not span.chord.inverted else bass[0]
                self.hit(bar, place, ring, [low], 8)
            elif on_beat and not strong:
                self.hit(bar, place, ring * 0.9, chord[1:6])
            if style == "oom-pah" and per_bar == 2 and slot % self.grid.beat_parts == self.grid.beat_parts - 1:
                self.hit(bar, place, part * 0.8, chord[1:5])
            elif not on_beat and self.grid.beat_parts == 2 and rng.random() < 0.18:
                self.hit(bar, place, part, chord[2:6], -14, up=True)
        elif style == "chick":
            if on_beat and (beat % 2 == 1 or per_bar == 2):
                self.hit(bar, place + (0 if per_bar > 2 else 0.5), 0.5 * ring, chord[-5:], 4)
        elif style in ("waltz-chick",):
            if on_beat and beat == 0 and self.low_notes:
                self.hit(bar, place, 1, [bass[0]], 8)
            elif on_beat and beat > 0:
                self.hit(bar, place, ring, chord[1:6])
        elif style in ("eighths", "six8-strum"):
            if self.pattern[slot % 16] or on_beat:
                self.hit(bar, place, part * (0.55 if self.short else 1.1), chord[:6] if on_beat else chord[-4:],
                         0 if on_beat else -8, up=not on_beat)
        elif style == "train-strum":
            for half in (0.0, part / 2):
                accent = 14 if (not on_beat and half == 0.0) else -8
                self.hit(bar, place + half, part / 2, chord[-5:], accent, up=half > 0)
        elif style == "quarters":
            if on_beat:
                self.hit(bar, place, 0.7 * ring if self.short else 1.0, chord[:6], 6 if beat % 2 else 0)
        elif style == "shuffle-comp":
            if on_beat or rng.random() < 0.7:
                low = [bass[0], bass[0] + (7 if slot % 4 < 2 else 9)]
                self.hit(bar, place, part * 0.9, low)
        elif style == "arpeggio":
            order = list(range(len(chord))) + list(range(len(chord) - 2, 0, -1))
            step = order[(slot + (bar % 2) * per_bar) % len(order)]
            self.hit(bar, place, part * rng.choice([1, 2, 3]), [chord[step]])
        elif style == "travis":
            if on_beat:
                self.hit(bar, place, 1, [bass[0] if beat % 2 == 0 else bass[0] + rng.choice([7, 12])], 4)
            if rng.random() < 0.65:
                self.hit(bar, place, part * 1.5, [rng.choice(chord[len(chord) // 2 :])])
        elif style == "banjo-roll":
            tones = chord[-4:]
            for half in (0.0, part / 2):
                index = (slot * 2 + (1 if half else 0)) * 3 % 8
                self.hit(bar, place + half, part / 2, [tones[index % len(tones)]])
        elif style == "halves":
            new = span is not None and abs(span.start_sec - self.grid.at(bar, place)) < 0.02
            if on_beat and (beat % 2 == 0 or new):
                self.hit(bar, place, 2 if per_bar == 4 else 1, chord[:6])
        elif style == "bossa":
            if slot % 16 in (0, 3, 6, 7):
                self.hit(bar, place, part * 1.4, chord[-4:])
        elif self.pattern[(slot * 3) % 16]:
            size = min(len(chord), rng.randint(2, 5))
            self.hit(bar, place, part * rng.choice([0.5, 1, 2]), sorted(rng.sample(chord, size)))
