"""Bass lines: what makes a change sound like its root, its inversion or only like two-beat.

The chart's bass is heard because it stays or comes first; the fifth of root-fifth bass, walks and walk-ups never
change a label.
"""

from __future__ import annotations

import random

from ..frames import PIECE_SEC
from .changes import Changes, Span
from .grid import Grid
from .notes import Note


class BassPlayer:
    """Plays one style over the changes."""

    def __init__(self, grid: Grid, changes: Changes, style: str, timing_sec: float, rng: random.Random) -> None:
        """``timing_sec`` is the standard deviation of onsets around the grid."""
        self.grid, self.changes, self.style, self.rng = grid, changes, style, rng
        self.timing_sec = timing_sec
        self.lowest = rng.choice([28, 28, 28, 31, 33, 35])
        self.length_share = rng.choice([0.97, 0.97, 0.85, 0.6])
        self.walk_up = rng.choice([0.0, 0.2, 0.45])
        self.doubled = rng.random() < 0.04
        self.notes: list[Note] = []

    def pitch(self, pitch_class: int) -> int:
        """Lowest pitch of the class that the player likes to use."""
        return self.lowest + (pitch_class - self.lowest) % 12

    def play(self, bar: int, beat: float, beats: float, midi: int) -> None:
        """Adds a note of ``beats`` beats."""
        start = self.grid.at(bar, beat) + abs(self.rng.gauss(0, self.timing_sec))
        full = self.grid.at(bar, beat + beats) - self.grid.at(bar, beat)
        end = min(start + full * self.length_share - 0.01, PIECE_SEC - 0.05)
        if end - start < 0.05:
            return
        velocity = self.rng.randint(72, 112) + (6 if beat == 0 else 0)
        while midi < 24:
            midi += 12
        self.notes.append(Note(start, end, midi, velocity))
        if self.doubled:
            self.notes.append(Note(start, end, midi + 12, velocity - 12))

    def line(self) -> list[Note]:
        """The whole line."""
        if self.grid.pickup_beats and self.rng.random() < 0.4:
            self._pick_up()
        for bar in self.grid.music_bars():
            if self.rng.random() < 0.02:
                continue
            self._bar(bar)
        return self.changes.play_pushes(self.notes)

    def _pick_up(self) -> None:
        """Scale steps up to the first root, one to a beat."""
        first, count = self.changes.spans[0], self.grid.pickup_beats
        root = self.pitch(first.chord.bass)
        below = [pitch for pitch in range(root - 12, root) if pitch % 12 in first.scale and pitch >= 26][-count:]
        for index, pitch in enumerate(below):
            self.play(self.grid.first_music_bar, index - len(below), 1, pitch)

    def _span(self, bar: int, beat: float) -> Span | None:
        return self.changes.span_at(self.grid.at(bar, beat) + 0.01)

    def _is_new(self, bar: int, beat: int) -> bool:
        return beat == 0 or self._span(bar, beat) is not self._span(bar, beat - 0.6)

    def _bar(self, bar: int) -> None:
        per_bar = self.grid.beats_per_bar
        alternate = 0
        beat = 0
        while beat < per_bar:
            span = self._span(bar, beat)
            if span is None:
                beat += 1
                continue
            new = self._is_new(bar, beat)
            alternate = 0 if new else alternate + 1
            beat += self._step(bar, beat, span, new, alternate)
        self._walk_into_next(bar)

    def _fifth(self, span: Span) -> int:
        """The other note of two-beat: the fifth, under the root where there is room; a slash bass stays."""
        chord = span.chord
        if chord.inverted:
            return self.pitch(chord.bass)
        fifth = self.pitch(chord.fifth)
        return fifth - 12 if fifth - 12 >= 26 and self.rng.random() < 0.6 else fifth

    def _step(self, bar: int, beat: int, span: Span, new: bool, alternate: int) -> int:
        """Plays what the style has at this beat and returns how many beats it fills."""
        rng, chord = self.rng, span.chord
        root = self.pitch(chord.bass)
        per_bar = self.grid.beats_per_bar
        left = per_bar - beat
        if self.style in ("two-beat", "one-three"):
            width = 2 if per_bar == 4 and left >= 2 and not self._is_new(bar, beat + 1) else 1
            other = not new and (alternate % 2 == 1) and (self.style == "two-beat" or rng.random() < 0.35)
            self.play(bar, beat, width, self._fifth(span) if other else root)
            if self.style == "one-three" and width == 2 and rng.random() < 0.3:
                self.play(bar, beat + 1.5, 0.5, root)
            return width
        if self.style == "waltz":
            if new:
                odd = bar % 2 == 1 and self._span(bar, 0) is self._span(bar - 1, 0) and not chord.inverted
                width = 1
                while beat + width < per_bar and not self._is_new(bar, beat + width):
                    width += 1
                self.play(bar, beat, width, self._fifth(span) if odd and rng.random() < 0.6 else root)
                return width
            return 1
        if self.style in ("six8", "triplet-pickup"):
            other = not new and rng.random() < 0.5
            self.play(bar, beat, 0.95, self._fifth(span) if other else root)
            if rng.random() < 0.3:
                self.play(bar, beat + 2 / 3, 1 / 3, root if rng.random() < 0.6 else self._fifth(span))
            return 1
        if self.style == "walking":
            self._walking_beat(bar, beat, span, new)
            return 1
        if self.style in ("eighths", "shuffle"):
            tone = root if new or rng.random() < 0.85 else self._fifth(span)
            self.play(bar, beat, 0.5, tone)
            self.play(bar, beat + 0.5, 0.5, root + (12 if self.style == "shuffle" and rng.random() < 0.3 else 0))
            return 1
        if self.style == "long":
            if new:
                self.play(bar, beat, left, root)
            return 1
        if self.style == "syncopated":
            if new:
                self.play(bar, beat, 1.5 if left >= 2 else 1, root)
                if left >= 2:
                    self.play(bar, beat + 1.5, 0.5, rng.choice([root, root, self._fifth(span)]))
                return min(2, left)
            self.play(bar, beat, 1, rng.choice([root, root, self._fifth(span)]))
            return 1
        self.play(bar, beat, 1, root if new or rng.random() < 0.9 or chord.inverted else self._fifth(span))
        return 1

    def _walking_beat(self, bar: int, beat: int, span: Span, new: bool) -> None:
        """One note of a walking line: the bass on a new chord, an approach before the next, tones between."""
        rng, chord = self.rng, span.chord
        after = self._span(bar, beat + 1.01)
        if new:
            tone = self.pitch(chord.bass)
        elif after is not None and after is not span:
            tone = self.pitch(after.chord.bass) + rng.choice([-1, 1, 2, -2, 7])
        elif chord.inverted and rng.random() < 0.6:
            tone = self.pitch(chord.bass)
        else:
            tone = self.pitch(rng.choice(chord.pitch_classes)) + rng.choice([0, 0, 0, 12, 2])
        self.play(bar, beat, 1, min(tone, 55))

    def _walk_into_next(self, bar: int) -> None:
        """Two or three scale steps into the next root: replaces the bar's last notes; the label stays."""
        if self.style not in ("two-beat", "one-three", "waltz", "roots", "six8", "eighths"):
            return
        here, after = self._span(bar, self.grid.beats_per_bar - 0.1), self._span(bar + 1, 0)
        if here is None or after is None or here.chord.bass == after.chord.bass or self.rng.random() > self.walk_up:
            return
        count = self.rng.choice([2, 2, 3]) if self.grid.beats_per_bar == 4 else 2
        if self.grid.beat_parts == 3:
            count = 2
        unit = 1.0 if self.grid.beats_per_bar >= 3 else (1 / 3 if self.grid.beat_parts == 3 else 0.5)
        first = self.grid.at(bar, self.grid.beats_per_bar - count * unit) - 0.02
        if here.start_sec > first - 0.05:
            return
        self.notes = [note for note in self.notes if note.start_sec < first]
        if self.notes and self.notes[-1].end_sec > first:
            self.notes[-1].end_sec = max(self.notes[-1].start_sec + 0.06, first)
        target = self.pitch(after.chord.bass)
        ladder = [pitch for pitch in range(target - 9, target + 10) if pitch % 12 in here.scale and pitch != target]
        if self.rng.random() < 0.2:
            ladder = [pitch for pitch in range(target - 3, target + 4) if pitch != target]
        below = [pitch for pitch in ladder if pitch < target][-count:]
        above = [pitch for pitch in ladder if pitch > target][:count][::-1]
        steps = below if self.rng.random() < 0.7 and below and below[0] >= 26 else above
        for index, pitch in enumerate(steps):
            self.play(bar, self.grid.beats_per_bar - (len(steps) - index) * unit, unit, pitch)
