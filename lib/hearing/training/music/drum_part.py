"""Drum parts of the feels, in General MIDI drum notes."""

from __future__ import annotations

import random

from ..frames import PIECE_SEC
from .grid import Grid
from .notes import Note

KICK, RIM, SNARE, CLAP, BRUSH_SNARE = 36, 37, 38, 39, 40
CLOSED_HAT, PEDAL_HAT, OPEN_HAT, RIDE, CRASH = 42, 44, 46, 51, 49
TAMBOURINE, SHAKER, COWBELL, CONGA = 54, 70, 56, 63
STICKS, METRONOME, CLAVES, WOODBLOCK = 31, 33, 75, 76


class Drummer:
    """Plays one style over the grid, with count-in and fills."""

    def __init__(self, grid: Grid, style: str, rng: random.Random) -> None:
        """Draws the cymbal that keeps time and how loud each limb plays."""
        self.grid, self.style, self.rng = grid, style, rng
        self.cymbal = rng.choice([CLOSED_HAT, CLOSED_HAT, RIDE, PEDAL_HAT, SHAKER, TAMBOURINE])
        self.kick_gain, self.snare_gain, self.cymbal_gain = (rng.uniform(0.6, 1.1) for _ in range(3))
        self.fill = rng.choice([0.0, 0.1, 0.25])
        self.clicker = rng.choice([RIM, STICKS, METRONOME, CLAVES, WOODBLOCK, COWBELL])
        self.click_accent = rng.choice([0, 0, 14, 34])
        self.notes: list[Note] = []

    def hit(self, bar: int, beat: float, drum: int, velocity: float) -> None:
        """Strikes ``drum``; one stroke in thirty is left out."""
        if self.rng.random() < 0.03:
            return
        gain = self.cymbal_gain
        if drum == KICK:
            gain = self.kick_gain
        elif drum in (RIM, SNARE, CLAP, BRUSH_SNARE):
            gain = self.snare_gain
        start = self.grid.at(bar, beat) + abs(self.rng.gauss(0, 0.003))
        if 0 <= start < PIECE_SEC - 0.1:
            loud = int(max(12, min(127, velocity * gain + self.rng.gauss(0, 6))))
            self.notes.append(Note(start, start + 0.09, drum, loud))

    def part(self) -> list[Note]:
        """The whole part; the count-in is sticks or hat, a pick-up perhaps a fill."""
        stick = self.rng.choice([RIM, PEDAL_HAT, CLOSED_HAT, STICKS])
        if self.grid.pickup_beats:
            if self.style != "click" and self.rng.random() < 0.4:
                self._fill(self.grid.first_music_bar - 1)
        else:
            for bar in range(self.grid.first_music_bar):
                for beat in range(self.grid.beats_per_bar):
                    self.hit(bar, beat, self.clicker if self.style == "click" else stick, 92)
        if self.style == "none":
            return self.notes
        for bar in self.grid.music_bars():
            for beat in range(self.grid.beats_per_bar):
                self._beat(bar, beat)
            if self.style != "click" and self.rng.random() < self.fill and bar % 4 == 3:
                self._fill(bar)
            if self.style != "click" and bar % 8 == 0 and self.rng.random() < 0.15:
                self.hit(bar, 0, CRASH, 90)
        return self.notes

    def _fill(self, bar: int) -> None:
        parts = 4 if self.grid.beat_parts == 2 else 3
        for step in range(parts):
            drum = self.rng.choice([SNARE, SNARE, 45, 48, 43])
            self.hit(bar, self.grid.beats_per_bar - 1 + step / parts, drum, 70 + 8 * step)

    def _beat(self, bar: int, beat: int) -> None:
        """One beat of the style."""
        rng, style = self.rng, self.style
        per_bar = self.grid.beats_per_bar
        back = beat > 0 if per_bar == 3 else beat % 2 == 1
        three = self.grid.beat_parts == 3
        thirds = (1 / 3, 2 / 3)
        if style == "click":
            self.hit(bar, beat, self.clicker, 80 + (self.click_accent if beat == 0 else 0))
        elif style == "two-beat":
            self.hit(bar, beat, KICK if not back else SNARE, 88 if not back else 74)
            self.hit(bar, beat, self.cymbal, 58)
            if rng.random() < 0.6:
                self.hit(bar, beat + 0.5, self.cymbal, 44)
        elif style == "train":
            for quarter in range(4):
                accent = 40 if quarter == 2 else 0
                self.hit(bar, beat + quarter / 4, BRUSH_SNARE if rng.random() < 0.5 else SNARE, 42 + accent)
            self.hit(bar, beat, KICK, 84 if not back else 60)
        elif style in ("shuffle", "ride"):
            self.hit(bar, beat, RIDE if style == "ride" else self.cymbal, 74)
            if style == "shuffle" or back:
                self.hit(bar, beat + 0.5, RIDE if style == "ride" else self.cymbal, 54)
            if style == "shuffle":
                self.hit(bar, beat, SNARE if back else KICK, 90)
            elif back:
                self.hit(bar, beat, PEDAL_HAT, 66)
            elif rng.random() < 0.5:
                self.hit(bar, beat, KICK, 56)
        elif style == "brushes":
            self.hit(bar, beat, BRUSH_SNARE, 38 + 26 * back)
            self.hit(bar, beat + 0.5, BRUSH_SNARE, 30)
            if beat == 0 or (beat == 2 and rng.random() < 0.5):
                self.hit(bar, beat, KICK, 66)
        elif style == "waltz":
            self.hit(bar, beat, KICK if beat == 0 else rng.choice([SNARE, RIM, self.cymbal]), 84 if beat == 0 else 58)
            self.hit(bar, beat, self.cymbal, 54)
        elif style in ("six8", "triplets"):
            self.hit(bar, beat, self.cymbal, 72)
            for place in thirds if three else (0.5,):
                self.hit(bar, beat + place, self.cymbal, 52)
            self.hit(bar, beat, SNARE if back else KICK, 88)
            if not back and rng.random() < 0.25:
                self.hit(bar, beat + 2 / 3, KICK, 66)
        elif style == "four":
            self.hit(bar, beat, KICK, 94)
            self.hit(bar, beat + 0.5, OPEN_HAT if rng.random() < 0.3 else CLOSED_HAT, 66)
            if back:
                self.hit(bar, beat, CLAP, 82)
        elif style == "perc":
            self.hit(bar, beat, SHAKER, 66)
            self.hit(bar, beat + 0.5, SHAKER, 48)
            self.hit(bar, beat, rng.choice([TAMBOURINE, COWBELL, CONGA]) if back else KICK, 66)
        else:
            self.hit(bar, beat, self.cymbal, 72)
            for place in thirds if three else (0.5,):
                self.hit(bar, beat + place, self.cymbal, 52)
            snare = RIM if style == "rim" else SNARE
            if back:
                self.hit(bar, beat, snare, 94)
            else:
                self.hit(bar, beat, KICK, 96)
                if rng.random() < 0.35:
                    self.hit(bar, beat + (0.5 if not three else 2 / 3), KICK, 80)
