"""Steel lines: singles, pairs and triads picked on a neck, moved by the bar (all voices) or by pedals (some)."""

from __future__ import annotations

import random

import numpy as np

from ..frames import PIECE_SEC
from .changes import Changes
from .grid import Grid
from .notes import AUDIBLE_SHARE_OF_SWELL, Arrival, Note, Vibrato
from .steel_neck import Neck, Place, draw_neck

Move = tuple[float, float, Place]
"""Start of a glide, its end, and the place arrived at."""


class SteelPlayer:
    """Plays phrases over the changes.

    What a player does is drawn once for a part: how often pairs, moves, swells and vibrato come, how fast glides are
    and where on the neck the hand likes to be.
    """

    def __init__(self, grid: Grid, changes: Changes, timing_sec: float, rng: random.Random) -> None:
        """``timing_sec`` is the spread of picks around the grid."""
        self.grid, self.changes, self.rng = grid, changes, rng
        self.timing_sec = timing_sec
        self.neck: Neck = draw_neck(rng)
        self.noise = np.random.default_rng(rng.getrandbits(32))
        self.voices = rng.choice([(0.2, 0.65, 0.15), (0.5, 0.45, 0.05), (0.1, 0.6, 0.3), (0.85, 0.15, 0.0)])
        self.moving = rng.uniform(0.25, 0.85)
        self.pedal_share = rng.uniform(0.3, 0.8)
        self.glide_sec = rng.uniform(0.05, 0.16)
        self.swelling = rng.choice([0.0, 0.0, 0.0, 0.15, 0.4, 0.9])
        self.vibrating = rng.choice([0.0, 0.3, 0.6, 0.95])
        self.vibrato_depth = rng.uniform(0.06, 0.36)
        self.chord_share = rng.uniform(0.5, 0.95)
        self.rest = rng.uniform(0.02, 0.3)
        self.lag_sec = rng.choice([0.0, 0.0, 0.008, 0.018])
        self.out_of_tune = rng.choice([0.0, 0.02, 0.05])
        self.rolls = rng.choice([0.0, 0.0, 0.1, 0.3])
        self.repeating = rng.choice([0.0, 0.0, 0.12, 0.3])
        self.last: Place | None = None
        self.bends = rng.choice([0.0, 0.0, 0.0, 0.06])
        self.fret = rng.choice([3.0, 5.0, 8.0, 10.0, 12.0])
        self.top = rng.choice([62.0, 66.0, 69.0, 72.0, 76.0])
        self.home_top = self.top

    def line(self, plays_in: tuple[float, float]) -> list[Note]:
        """Phrases in bars whose place in a four-bar phrase lies within ``plays_in`` (0 to 1)."""
        notes: list[Note] = []
        per_bar, rng = self.grid.beats_per_bar, self.rng
        parts = self.grid.beat_parts
        for bar in self.grid.music_bars():
            if not plays_in[0] <= (bar % 4) / 4 < plays_in[1] or rng.random() < 0.06:
                continue
            slots_per_beat = rng.choice([0.5, 1, 1, parts, parts, parts, parts * 2 if parts == 2 else parts])
            if slots_per_beat * 60 / max(1e-3, self.grid.at(bar, 1) - self.grid.at(bar, 0)) > 420:
                slots_per_beat = 1
            slots, slot = max(1, int(per_bar * slots_per_beat)), 0
            while slot < slots:
                length = rng.choice([1, 1, 1, 1, 2, 2, 3])
                beat = slot / slots_per_beat
                until = min(beat + length / slots_per_beat, per_bar + (1 if rng.random() < 0.1 else 0))
                slot += length
                if rng.random() >= self.rest:
                    self._event(notes, self.grid.at(bar, beat), self.grid.at(bar, until))
        return sorted(notes, key=lambda note: note.start_sec)

    def _choose(self, time_sec: float, voices: int, chord_only: bool) -> Place | None:
        """A place near the hand whose notes fit the chord or the scale at ``time_sec``."""
        span = self.changes.span_at(time_sec + 0.01)
        if span is None:
            return None
        fitting = self.neck.fitting(span.chord.pitch_classes if chord_only else span.scale, voices)
        if len(fitting) == 0:
            return None
        goal = self.top + self.rng.gauss(0, 4) + 0.15 * (self.home_top - self.top)
        cost = 0.5 * np.abs(self.neck.fret[fitting] - self.fret) + np.abs(self.neck.top[fitting] - goal)
        cost = cost + self.noise.uniform(0, 4, len(fitting)) + 20 * (self.neck.top[fitting] > 91)
        return self.neck.places[int(fitting[int(np.argmin(cost))])]

    def _pedalled(self, place: Place, classes: list[int] | None) -> Place | None:
        """A place reached from ``place`` by pedals alone that moves a voice by at most two semitones."""
        found = []
        for engaged in range(self.neck.engaged_count):
            other = self.neck.at(place.fret, engaged, place.grip)
            if other is None or other.pitches == place.pitches:
                continue
            if max(abs(a - b) for a, b in zip(place.pitches, other.pitches)) > 2:
                continue
            if classes is None or self.neck.fits(other, classes):
                found.append(other)
        return self.rng.choice(found) if found else None

    def _slid(self, place: Place, classes: list[int] | None) -> Place | None:
        """A place reached from ``place`` by the bar alone."""
        steps = [-2, -1, 1, 2, 2, -2, 3, -3, 5, -5, 4, -4, 7, 12 if self.rng.random() < 0.2 else 1]
        self.rng.shuffle(steps)
        for step in steps:
            other = self.neck.at(place.fret + step, place.engaged, place.grip)
            if other is not None and (classes is None or self.neck.fits(other, classes)):
                return other
        return None

    def _moved(self, place: Place, classes: list[int] | None) -> Place | None:
        if self.rng.random() < self.pedal_share:
            return self._pedalled(place, classes) or self._slid(place, classes)
        return self._slid(place, classes)

    def _glide_length(self) -> float:
        return min(0.3, max(0.035, self.glide_sec * self.rng.uniform(0.6, 1.7)))

    def _moves(self, place: Place, start: float, end: float) -> tuple[Place, list[Move]]:
        """Where a note begins and the glides it makes, for a pick at ``start`` heard until ``end``."""
        rng = self.rng
        moves: list[Move] = []
        length = end - start
        if length < 0.3 or rng.random() > self.moving:
            return place, moves
        first = place
        time = start
        if rng.random() < 0.4:
            below = self._moved(place, None)
            if below is not None:
                begin = start + (rng.uniform(0.0, 0.06) if rng.random() < 0.5 else rng.uniform(0.08, 0.35 * length))
                moves.append((begin, begin + self._glide_length(), place))
                first, time = below, moves[-1][1]
                if rng.random() < 0.6:
                    return first, moves
        current = place
        for _ in range(rng.choice([1, 1, 1, 2, 3])):
            room = end - time
            if room < 0.32:
                break
            begin = time + rng.uniform(0.14, max(0.15, 0.7 * room - 0.1))
            span = self.changes.span_at(begin + 0.05)
            after = self.changes.span_after(time + 0.1)
            if after is not None and after.start_sec < end - 0.2 and rng.random() < 0.7:
                begin, span = max(time + 0.1, after.start_sec - 0.05), after
            if span is None:
                break
            classes = span.chord.pitch_classes if rng.random() < 0.5 else span.scale
            target = self._moved(current, classes)
            if len(moves) and rng.random() < 0.35:
                target = first if moves[-1][2] is not first else target
            if target is None or target.pitches == current.pitches:
                break
            finish = begin + self._glide_length()
            if finish > end - 0.08:
                break
            moves.append((begin, finish, target))
            current, time = target, finish
        return first, moves

    def _event(self, notes: list[Note], start_sec: float, end_sec: float) -> None:
        """Picks one grip and adds its notes."""
        rng = self.rng
        voices = rng.choices([1, 2, 3], self.voices)[0]
        target = self._again(start_sec) or self._choose(start_sec, voices, rng.random() < self.chord_share)
        if target is None:
            return
        voices = len(target.pitches)
        start = max(0.01, start_sec + self.lag_sec + rng.gauss(0, self.timing_sec))
        ring = rng.choice([-0.06, -0.02, 0.0, 0.0, 0.03])
        end = min(end_sec + ring, PIECE_SEC - 0.06)
        if end - start < 0.11:
            return
        place, moves = self._moves(target, start, end)
        last = moves[-1][2] if moves else place
        self.last = last
        self.fret, self.top = float(last.fret), float(max(last.pitches))
        stagger = rng.choice([0.0, 0.0, 0.0, 0.012, 0.03])
        if voices > 1 and rng.random() < self.rolls and end - start > 0.6:
            stagger = (end - start) / (voices + 2)
        swell = rng.uniform(0.1, 0.5) if rng.random() < self.swelling and end - start > 0.35 else 0.0
        swell = min(swell, 0.6 * (end - start))
        vibrato = None
        if rng.random() < self.vibrating and end - start > 0.35:
            depth = self.vibrato_depth * rng.uniform(0.6, 1.3)
            vibrato = Vibrato(rng.uniform(4.3, 6.9), depth, rng.uniform(0.05, 0.5))
        velocity = rng.randint(68, 118)
        order = list(range(voices))
        if rng.random() < 0.2:
            order.reverse()
        for turn, voice in enumerate(order):
            pick = start + turn * stagger
            if end - pick > 0.1:
                self._voice(notes, place, moves, voice, pick, end, velocity + rng.randint(-10, 8), swell, vibrato)

    def _again(self, time_sec: float) -> Place | None:
        """The place picked last, where the player picks it once more and the chord still has it."""
        span = self.changes.span_at(time_sec + 0.01)
        if self.last is None or span is None or self.rng.random() >= self.repeating:
            return None
        return self.last if self.neck.fits(self.last, span.scale) else None

    def _voice(self, notes: list[Note], place: Place, moves: list[Move], voice: int, pick: float, end: float,
               velocity: int, swell: float, vibrato: Vibrato | None) -> None:
        """Adds the note of one string, with the glides that its pitch makes."""
        off = self.rng.gauss(0, self.out_of_tune)
        pitch = float(place.pitches[voice]) + off
        curve: list[tuple[float, float]] = [(pick, pitch)]
        arrivals: list[Arrival] = []
        fret = place.fret
        for begin, finish, target in moves:
            goal = float(target.pitches[voice]) + off
            by_pedal, fret = target.fret == fret, target.fret
            if finish <= pick + 0.02:
                curve, pitch = [(pick, goal)], goal
                continue
            if goal == pitch:
                continue
            begin = max(begin, pick)
            middle = 0.5 * (begin + finish)
            bow = self.rng.uniform(0.35, 0.65)
            curve += [(begin, pitch), (middle, pitch + (goal - pitch) * bow), (finish, goal)]
            arrivals.append(Arrival(middle, goal, by_pedal))
            pitch = goal
        if not 36 <= min(point[1] for point in curve) or max(point[1] for point in curve) > 98:
            return
        if self.rng.random() < self.bends and curve[-1][0] < end - 0.3:
            curve += [(end - 0.2, pitch), (end, pitch + self.rng.choice([-1.5, -0.7, 0.5]))]
        audible = pick + AUDIBLE_SHARE_OF_SWELL * swell if swell else -1.0
        notes.append(
            Note(pick, end, curve[0][1], max(40, min(122, velocity)), curve, arrivals, vibrato, swell, audible)
        )
