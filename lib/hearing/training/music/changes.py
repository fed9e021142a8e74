"""The changes of an invented piece: chart numbers laid on the grid, with key changes and pushes."""

from __future__ import annotations

import bisect
import random
from dataclasses import dataclass

from .chords import Chord, Dressing, read_number
from .grid import Grid
from .notes import Note
from .progressions import FOLLOWERS, MAJOR, MINOR

MAJOR_SCALE = (0, 2, 4, 5, 7, 9, 11)
MINOR_SCALE = (0, 2, 3, 5, 7, 8, 10)


@dataclass(slots=True)
class Span:
    """One chord from ``start_sec`` to ``end_sec``, in the key of ``tonic`` (pitch class)."""

    start_sec: float
    end_sec: float
    chord: Chord
    tonic: int
    minor: bool

    @property
    def scale(self) -> list[int]:
        """Pitch classes of the home scale, bent to the chord where the chord leaves it."""
        home = [(self.tonic + step) % 12 for step in (MINOR_SCALE if self.minor else MAJOR_SCALE)]
        tones = self.chord.pitch_classes
        foreign = [tone for tone in tones if tone not in home]
        kept = [tone for tone in home if all((tone - other) % 12 not in (1, 11) or tone in tones for other in foreign)]
        return sorted(set(kept + tones))


@dataclass(frozen=True, slots=True)
class Push:
    """A change that comes an eighth early: everyone plays at ``early_sec`` what the chart has at ``chart_sec``."""

    early_sec: float
    chart_sec: float


@dataclass
class Changes:
    """All chords in order, without gaps from the first bar of music on, and the pushes among them."""

    spans: list[Span]
    pushes: list[Push]

    def __post_init__(self) -> None:
        self._starts = [span.start_sec for span in self.spans]

    def span_at(self, time_sec: float) -> Span | None:
        """The span that sounds at ``time_sec``; None before the music and after it."""
        index = bisect.bisect_right(self._starts, time_sec + 1e-3) - 1
        if index < 0 or time_sec > self.spans[index].end_sec - 1e-3:
            return None
        return self.spans[index]

    def span_after(self, time_sec: float) -> Span | None:
        """The first span that begins after ``time_sec``."""
        index = bisect.bisect_right(self._starts, time_sec + 1e-3)
        return self.spans[index] if index < len(self.spans) else None

    def play_pushes(self, notes: list[Note]) -> list[Note]:
        """Notes with every onset at a pushed change moved early, and what stood in its way cut or dropped."""
        for push in self.pushes:
            lead = push.chart_sec - push.early_sec
            kept: list[Note] = []
            for note in notes:
                late = note.start_sec - push.chart_sec
                if abs(late) < 0.35 * lead and note.curve is None:
                    note.start_sec = max(0.0, push.early_sec + late)
                elif push.early_sec - 0.03 < note.start_sec < push.chart_sec and note.curve is None:
                    continue
                elif note.start_sec < push.early_sec < note.end_sec < push.chart_sec + 0.1 and note.curve is None:
                    note.end_sec = max(note.start_sec + 0.05, push.early_sec)
                kept.append(note)
            notes = kept
        return notes


def _wander(minor: bool, bars: int, rng: random.Random) -> list[str]:
    """Bars of changes found by stepping from chord to chord."""
    if minor:
        return rng.choice(MINOR).split(" | ")
    current, out = "1", []
    for _ in range(bars):
        bar = [current]
        if rng.random() < 0.25:
            current = rng.choice(FOLLOWERS.get(current, ("1", "4", "5")))
            bar.append(current)
        out.append(" ".join(bar))
        if rng.random() < 0.8:
            current = rng.choice(FOLLOWERS.get(current, ("1", "4", "5")))
    return out


def _bar_beats(count: int, beats_per_bar: int) -> list[int]:
    """How many beats each of ``count`` chords of one bar gets."""
    if count >= beats_per_bar:
        return [1] * beats_per_bar
    share, rest = divmod(beats_per_bar, count)
    return [share + (1 if index < rest else 0) for index in range(count)]


def _section(minor: bool, rng: random.Random) -> list[str]:
    """Bars of one section, sometimes stretched to two bars a chord."""
    if rng.random() < 0.25:
        return _wander(minor, rng.choice([4, 8]), rng)
    bars = rng.choice(MINOR if minor else MAJOR).split(" | ")
    if rng.random() < 0.18 and all(" " not in bar for bar in bars):
        return [bar for bar in bars for _ in range(2)]
    return bars


def _chart(grid: Grid, rng: random.Random) -> list[tuple[int, int, str, int, bool]]:
    """Chart of the piece: (bar, beat, chart number, tonic, minor) at every change; one song in eight has a section in
    the relative key."""
    tonic, minor = rng.randrange(12), rng.random() < 0.25
    themes = [(_section(minor, rng), 0, minor) for _ in range(rng.choice([1, 2, 2, 3]))]
    if rng.random() < 0.12:
        themes.append((_section(not minor, rng), 3 if minor else 9, not minor))
    chart: list[tuple[int, int, str, int, bool]] = []
    bars = list(grid.music_bars())
    index = 0
    may_change_key = rng.random() < 0.3
    while index < len(bars):
        section, away, in_minor = rng.choice(themes)
        for numbers in section:
            if index >= len(bars):
                break
            tokens = numbers.split()[: grid.beats_per_bar]
            even = iter(_bar_beats(len(tokens), grid.beats_per_bar))
            beat = 0
            for token in tokens:
                number, _, beats = token.partition(":")
                length = next(even)
                if beats and grid.beats_per_bar == 4:
                    length = int(beats)
                if beat < grid.beats_per_bar:
                    chart.append((bars[index], beat, number, (tonic + away) % 12, in_minor))
                beat += length
            index += 1
        if may_change_key and rng.random() < 0.5:
            step = rng.choice([1, 1, 2, 2, 2, 3, 5, 7, 10, 9])
            tonic = (tonic + step) % 12
            if chart and rng.random() < 0.5:
                bar, beat, _, _, _ = chart[-1]
                chart[-1] = (bar, beat, "57" if not minor else "5", tonic, minor)
            may_change_key = rng.random() < 0.2
    return chart


def draw_changes(grid: Grid, rng: random.Random) -> Changes:
    """Changes over the music bars of ``grid``.

    A song keeps one way of dressing each chart number, so that its sevenths come back where they were; in a quarter
    of the songs some changes, in some of them nearly all, are pushed an eighth early (in slow ones a sixteenth).
    """
    dressing = Dressing.draw(rng)
    chart = _chart(grid, rng)
    worn: dict[tuple[str, int], Chord] = {}
    pushy = rng.choice([0.2, 0.45, 0.8]) if rng.random() < (0.28 if grid.beat_parts == 2 else 0.1) else 0.0
    lead = 1 / grid.beat_parts
    if grid.beat_parts == 2 and grid.bars[0][1] - grid.bars[0][0] > 0.66 and rng.random() < 0.4:
        lead = 0.25
    spans: list[Span] = []
    pushes: list[Push] = []
    end = grid.at(list(grid.music_bars())[-1] + 1, 0)
    for bar, beat, number, tonic, minor in chart:
        plain = read_number(number, tonic)
        if (number, tonic) not in worn or rng.random() < 0.15:
            worn[(number, tonic)] = dressing.apply(plain, tonic, rng)
        chord = worn[(number, tonic)]
        if spans and spans[-1].chord == chord and spans[-1].tonic == tonic:
            continue
        start = grid.at(bar, beat)
        if spans and rng.random() < pushy and grid.at(bar, beat - lead) > spans[-1].start_sec + 0.15:
            early = grid.at(bar, beat - lead)
            pushes.append(Push(early, start))
            start = early
        if spans:
            spans[-1].end_sec = start
        spans.append(Span(start, end, chord, tonic, minor))
    return Changes(spans, pushes)
