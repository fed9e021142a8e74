"""The beat grid of an invented piece: bars and beats in seconds, with drift, swing and a count-in."""

from __future__ import annotations

import math
import random
from dataclasses import dataclass

from ..frames import PIECE_SEC
from .feels import Feel


@dataclass(slots=True)
class Grid:
    """Bars of beats.

    ``bars[i]`` holds the beat times of bar ``i`` followed by the time at which the bar ends, in seconds.
    ``first_music_bar`` is 1 when the piece starts with a count-in or a pick-up; of the bar before it, ``pickup_beats``
    belong to the music, 0 for a count-in.
    """

    bars: list[list[float]]
    beat_parts: int
    swing: float
    first_music_bar: int = 0
    last_music_bar: int = 10_000
    pickup_beats: int = 0

    @property
    def beats_per_bar(self) -> int:
        """Counted beats of a full bar."""
        return len(self.bars[0]) - 1

    def at(self, bar: int, beat: float) -> float:
        """Seconds at ``beat`` (0 is the downbeat, fractions allowed, may lie before or after the bar) of ``bar``."""
        per_bar = self.beats_per_bar
        bar += math.floor(beat / per_bar)
        beat %= per_bar
        if bar < 0:
            return self.bars[0][0] - (per_bar - beat) * (self.bars[0][1] - self.bars[0][0])
        if bar >= len(self.bars):
            return self.bars[-1][-1] + beat * (self.bars[-1][-1] - self.bars[-1][-2])
        whole = int(beat)
        share = beat - whole
        if self.beat_parts == 2 and self.swing != 0.5:
            share = share * 2 * self.swing if share < 0.5 else self.swing + (share - 0.5) * 2 * (1 - self.swing)
        times = self.bars[bar]
        return times[whole] + share * (times[whole + 1] - times[whole])

    def music_bars(self) -> range:
        """Indices of the bars in which the band plays."""
        return range(self.first_music_bar, min(len(self.bars), self.last_music_bar + 1))

    def beats(self, until_sec: float) -> list[tuple[float, bool]]:
        """(time, is a downbeat) of every counted beat before ``until_sec``, a count-in too, but nothing before a
        pick-up."""
        stop = min(len(self.bars), self.last_music_bar + 1)
        begin = self.at(self.first_music_bar, -self.pickup_beats) - 1e-3 if self.pickup_beats else 0.0
        return [
            (time, index == 0)
            for bar in self.bars[:stop]
            for index, time in enumerate(bar[:-1])
            if begin <= time < until_sec
        ]


def draw_grid(feel: Feel, rng: random.Random) -> Grid:
    """Grid over a whole piece in the given feel.

    The excerpt starts up to 1.2 s before its first bar. A tenth begin with a count-in bar, a tenth with a pick-up, and
    a tenth stop early; tempo wanders in half of the pieces, and one in twenty slows down towards its end.
    """
    low, high = feel.tempo_bpm
    beat_sec = 60 / math.exp(rng.uniform(math.log(low), math.log(high)))
    wander = max(feel.drift, rng.choice([0.0, 0.0, 0.003, 0.01]))
    slows_down = rng.random() < 0.05
    time = rng.uniform(0.05, 1.2)
    drift = 1.0
    bars: list[list[float]] = []
    while time < PIECE_SEC:
        bar = []
        for _ in range(feel.beats_per_bar):
            drift = min(1.08, max(0.93, drift + rng.gauss(0, wander)))
            bar.append(time)
            held = 1 + 0.4 * max(0.0, time / PIECE_SEC - 0.75) * 4 if slows_down else 1.0
            time += beat_sec * drift * held
        bars.append([*bar, time])
    opening = rng.random()
    first = 1 if opening < 0.2 and len(bars) > 4 else 0
    pickup = rng.randint(1, max(1, feel.beats_per_bar - 2)) if first and opening < 0.1 else 0
    last = rng.randrange(len(bars) // 2, len(bars)) if rng.random() < 0.1 else 10_000
    return Grid(bars, feel.beat_parts, rng.choice(feel.swing), first, last, pickup)
