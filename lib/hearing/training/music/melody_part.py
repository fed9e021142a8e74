"""Single lines that are not the steel's: singers, fiddles, twang guitars, harmonicas."""

from __future__ import annotations

import random

from ..frames import PIECE_SEC
from .changes import Changes
from .grid import Grid
from .notes import Note, Vibrato


class MelodyPlayer:
    """Sings or plays phrases in the home scale, leaning on chord tones on strong beats."""

    def __init__(self, grid: Grid, changes: Changes, timing_sec: float, rng: random.Random) -> None:
        """Draws range, density, scoops and vibrato of the line."""
        self.grid, self.changes, self.rng = grid, changes, rng
        self.timing_sec = timing_sec
        self.lowest = rng.choice([45, 50, 55, 60, 60, 64])
        self.highest = self.lowest + rng.randint(14, 22)
        self.scoops = rng.choice([0.0, 0.0, 0.2, 0.5])
        self.doubled = rng.choice([0.0, 0.0, 0.0, 0.6])
        self.slots_per_beat = rng.choice([1, 2, 2, 4]) if grid.beat_parts == 2 else rng.choice([1, 3])
        self.vibrato: Vibrato | None = None
        if rng.random() < 0.5:
            self.vibrato = Vibrato(rng.uniform(4.5, 6.8), rng.uniform(0.05, 0.45), rng.uniform(0.05, 0.4))

    def _pitches(self, time_sec: float, chord_only: bool) -> list[int]:
        span = self.changes.span_at(time_sec + 0.01)
        if span is None:
            return []
        classes = set(span.chord.pitch_classes if chord_only else span.scale)
        return [pitch for pitch in range(self.lowest, self.highest + 1) if pitch % 12 in classes]

    def line(self, plays_in: tuple[float, float]) -> list[Note]:
        """Phrases in bars whose place in a four-bar phrase lies within ``plays_in`` (0 to 1)."""
        notes: list[Note] = []
        current = float(self.rng.randint(self.lowest, self.highest))
        per_bar = self.grid.beats_per_bar
        if self.grid.pickup_beats and self.rng.random() < 0.8:
            self._pick_up(notes)
        for bar in self.grid.music_bars():
            place = (bar % 4) / 4
            if not plays_in[0] <= place < plays_in[1] or self.rng.random() < 0.08:
                continue
            slot, slots = 0, per_bar * self.slots_per_beat
            while slot < slots:
                length = self.rng.choice([1, 1, 1, 2, 2, 3, 4])
                beat = slot / self.slots_per_beat
                beats = min(length, slots - slot + 1) / self.slots_per_beat
                slot += length
                if self.rng.random() < 0.16:
                    continue
                start = self.grid.at(bar, beat)
                choices = self._pitches(start, beat == int(beat) and self.rng.random() < 0.6)
                if not choices:
                    continue
                goal = current + self.rng.gauss(0, 3.2)
                current = min(choices, key=lambda pitch: abs(pitch - goal))
                self._sing(notes, int(current), start, self.grid.at(bar, beat + beats))
        return self.changes.play_pushes(notes)

    def _pick_up(self, notes: list[Note]) -> None:
        """Steps of the first chord's scale through the beats before the first bar."""
        bar, slots = self.grid.first_music_bar, self.grid.pickup_beats * self.slots_per_beat
        scale = self.changes.spans[0].scale
        ladder = [pitch for pitch in range(self.lowest, self.highest + 1) if pitch % 12 in scale]
        place, step = self.rng.randrange(len(ladder)), self.rng.choice([-1, 1])
        for slot in range(slots):
            begin, end = ((index - slots) / self.slots_per_beat for index in (slot, slot + 1))
            pitch = ladder[max(0, min(len(ladder) - 1, place + step * slot))]
            self._sing(notes, pitch, self.grid.at(bar, begin), self.grid.at(bar, end))

    def _sing(self, notes: list[Note], midi: int, start_sec: float, end_sec: float) -> None:
        """Adds one note, perhaps scooped into, perhaps with a lower voice beside it."""
        rng = self.rng
        start = max(0.01, start_sec + rng.gauss(0, self.timing_sec))
        end = min(max(start + 0.08, end_sec - rng.choice([0, 0.01, 0.04, 0.1])), PIECE_SEC - 0.06)
        if end - start < 0.07:
            return
        curve = None
        if rng.random() < self.scoops and end - start > 0.16:
            below = rng.choice([-1, -0.6, -2, 0.7])
            curve = [(start, midi + below * 0.5), (start + min(0.12, (end - start) / 3), float(midi))]
        vibrato = self.vibrato if self.vibrato and end - start > 0.2 else None
        notes.append(Note(start, end, midi, rng.randint(66, 116), curve, vibrato=vibrato))
        if rng.random() < self.doubled:
            below_notes = self._pitches(start_sec, False)
            third = [pitch for pitch in below_notes if 3 <= midi - pitch <= 4 or 8 <= midi - pitch <= 9]
            if third:
                notes.append(Note(start, end, rng.choice(third), rng.randint(60, 108), vibrato=vibrato))
