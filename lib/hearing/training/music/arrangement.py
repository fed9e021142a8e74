"""A whole invented piece: who plays, what they play, and what is true about it."""

from __future__ import annotations

import random
from dataclasses import dataclass, field
from pathlib import Path

from ..frames import PIECE_SEC
from .bass_part import BassPlayer
from .changes import Changes, draw_changes
from .comping_part import CompingPlayer
from .drum_part import Drummer
from .feels import GUITAR_FEELS, Feel, draw_feel
from .gm_programs import draw_kit, draw_program
from .grid import Grid, draw_grid
from .lone_guitar_part import LoneGuitarist
from .melody_part import MelodyPlayer
from .notes import ModelledVoice, Note, Part, Voice
from .pop_songs import draw_excerpt
from .steel_part import SteelPlayer


@dataclass(slots=True)
class Arrangement:
    """Parts with their truth.

    ``chords_known`` is False where nobody plays the changes (a solo): its chords are not learned. ``beats`` is empty
    where the metre cannot be heard. ``cents`` is how far all pitched parts stand from A4 = 440 Hz.
    """

    parts: list[Part] = field(default_factory=list)
    changes: Changes = field(default_factory=lambda: Changes([], []))
    unknown_chords: list[tuple[float, float]] = field(default_factory=list)
    chords_known: bool = True
    beats: list[tuple[float, bool]] = field(default_factory=list)
    cents: float = 0.0


class Arranger:
    """Invents arrangements; one instance draws one piece."""

    def __init__(self, songs: Path, soundfonts: int, rng: random.Random) -> None:
        """``songs`` is the file of POP909 songs; ``soundfonts`` how many fonts the sampler has loaded."""
        self.songs, self.soundfonts, self.rng = songs, soundfonts, rng
        self.timing_sec = rng.uniform(0.001, 0.012)
        self.piece = Arrangement()
        if rng.random() < 0.4:
            self.piece.cents = rng.uniform(-18, 18)

    def draw(self) -> Arrangement:
        """The piece: 10 % solo lines, 15 % a guitar alone, 3 % bare chords, 20 % POP909 excerpts, else our own band."""
        draw = self.rng.random()
        if draw < 0.10:
            self._solo()
        elif draw < 0.25:
            self._lone_guitar()
        elif draw < 0.28:
            self._bare_chords()
        elif draw < 0.48:
            self._pop()
        else:
            self._band()
        return self.piece

    def _modelled(self, kinds: tuple[str, ...]) -> Voice:
        return ModelledVoice(self.rng.choice(kinds), self.rng.getrandbits(30))  # type: ignore[arg-type]

    def _voice(self, use: str, modelled: float, kinds: tuple[str, ...]) -> Voice:
        """A sampled voice, or with probability ``modelled`` one of the modelled ``kinds``."""
        if self.rng.random() < modelled:
            return self._modelled(kinds)
        return draw_program(use, self.soundfonts, self.rng)

    def _add(self, role: str, voice: Voice, notes: list[Note], gain_db: float = 0.0) -> None:
        if notes:
            self.piece.parts.append(Part(role, voice, notes, gain_db))  # type: ignore[arg-type]

    def _steel_voice(self) -> Voice:
        return self._voice("steel", 0.6, ("steel", "string-loop", "string-loop", "steel", "pluck"))

    def _melody_voice(self) -> Voice:
        return self._voice("melody", 0.25, ("voice", "reed", "voice", "pluck", "organ"))

    def _solo(self) -> None:
        """One line alone, timed by a hidden grid: chords are not learned, beats only where a metronome clicks."""
        rng = self.rng
        grid = draw_grid(draw_feel(rng), rng)
        changes = draw_changes(grid, rng)
        if rng.random() < 0.8:
            self._add("steel", self._steel_voice(), SteelPlayer(grid, changes, self.timing_sec, rng).line((0, 1)))
        else:
            self._add("melody", self._melody_voice(), MelodyPlayer(grid, changes, self.timing_sec, rng).line((0, 1)))
        self.piece.chords_known = False
        if rng.random() < 0.25:
            self._click(grid)

    def _click(self, grid: Grid) -> None:
        """A metronome, by which the beats of ``grid`` can be heard."""
        self.piece.beats = grid.beats(PIECE_SEC)
        self._add("drums", draw_kit(self.soundfonts, self.rng), Drummer(grid, "click", self.rng).part())

    def _lone_guitar(self) -> None:
        """A guitar alone (one time in six a keyboard), loosely in time, in a fifth with a line of its own on top."""
        rng = self.rng
        grid = draw_grid(feel := draw_feel(rng, GUITAR_FEELS), rng)
        changes = draw_changes(grid, rng)
        self.piece.changes, self.piece.beats = changes, grid.beats(PIECE_SEC)
        loose_sec = rng.uniform(0.004, 0.026)
        voice = self._voice(rng.choice(["acoustic"] * 6 + ["electric"] * 4 + ["keys"] * 2), 0.3,
                            ("pluck", "string-loop", "string-loop"))
        self._add("harmony", voice, LoneGuitarist(grid, changes, rng.choice(feel.comping), loose_sec, rng).part())
        if rng.random() < 0.2:
            self._add("melody", voice, MelodyPlayer(grid, changes, loose_sec, rng).line((0, 1)), rng.uniform(-3, 4))

    def _bare_chords(self) -> None:
        """Chords of plain tones, long or beat by beat, over a metronome or over nothing."""
        rng = self.rng
        grid = draw_grid(draw_feel(rng), rng)
        changes = draw_changes(grid, rng)
        self.piece.changes = changes
        kinds = ("pure", "pure", "organ", "reed", "pluck")
        for _ in range(rng.choice([1, 1, 2])):
            style = rng.choice(["pad", "halves", "quarters"])
            self._add("harmony", self._modelled(kinds), CompingPlayer(grid, changes, style, 0.001, rng).part())
        if rng.random() < 0.7:
            bass = BassPlayer(grid, changes, rng.choice(["long", "roots"]), 0.001, rng).line()
            self._add("bass", self._modelled(kinds), bass)
        if rng.random() < 0.85:
            self._click(grid)

    def _pop(self) -> None:
        """An excerpt of a song, often with bass and drums added, in a third with a steel line over its changes."""
        rng = self.rng
        excerpt = draw_excerpt(self.songs, rng)
        piece, grid = self.piece, excerpt.grid
        piece.changes, piece.unknown_chords = excerpt.changes, excerpt.unknown
        sing = rng.random() < 0.8
        steel = grid is not None and rng.random() < 0.35
        if sing:
            self._add("melody", self._melody_voice(), excerpt.melody)
        self._add("harmony", self._voice(rng.choice(["keys", "keys", "acoustic", "electric", "pad"]), 0.1,
                                         ("pluck", "organ")), excerpt.piano)
        if rng.random() < 0.7:
            use = rng.choice(["melody", "electric", "keys", "plucked"])
            self._add("harmony", self._voice(use, 0.1, ("reed", "pluck")), excerpt.counter, rng.uniform(-6, 0))
        if grid is None:
            return
        piece.beats = grid.beats(PIECE_SEC)
        if rng.random() < 0.6:
            style = rng.choice(["one-three", "roots", "syncopated", "eighths", "two-beat", "long"])
            notes = BassPlayer(grid, excerpt.changes, style, self.timing_sec, rng).line()
            self._add("bass", self._voice("bass", 0.15, ("pluck", "string-loop")), notes)
        if rng.random() < 0.65:
            style = rng.choice(["backbeat", "rim", "four", "brushes", "perc", "ride"])
            self._add("drums", draw_kit(self.soundfonts, rng), Drummer(grid, style, rng).part())
        if steel:
            window = rng.choice([(0.0, 1.0), (0.5, 1.0), (0.25, 0.75)])
            self._add("steel", self._steel_voice(),
                      SteelPlayer(grid, excerpt.changes, self.timing_sec, rng).line(window))

    def _band(self) -> None:
        """A band: bass, one or two who comp, drums, and in most pieces a steel, with or without a singer."""
        rng = self.rng
        feel = draw_feel(rng)
        grid = draw_grid(feel, rng)
        changes = draw_changes(grid, rng)
        self.piece.changes, self.piece.beats = changes, grid.beats(PIECE_SEC)
        self._rhythm_section(feel, grid, changes)
        self._front_line(grid, changes)

    def _rhythm_section(self, feel: Feel, grid: Grid, changes: Changes) -> None:
        rng = self.rng
        if rng.random() < 0.92:
            notes = BassPlayer(grid, changes, rng.choice(feel.bass), self.timing_sec, rng).line()
            self._add("bass", self._voice("bass", 0.15, ("pluck", "string-loop", "pluck")), notes)
        seats = [("acoustic", 0.78), ("keys", 0.42), ("electric", 0.3), ("plucked", 0.14)]
        playing = [use for use, chance in seats if rng.random() < chance] or ["acoustic"]
        for use in playing:
            style = rng.choice(feel.comping)
            notes = CompingPlayer(grid, changes, style, self.timing_sec, rng).part()
            self._add("harmony", self._voice(use, 0.12, ("pluck", "string-loop", "organ")), notes,
                      rng.uniform(-8, 2))
        if rng.random() < 0.3:
            notes = CompingPlayer(grid, changes, "pad", self.timing_sec, rng).part()
            self._add("harmony", self._voice("pad", 0.15, ("organ", "reed")), notes, rng.uniform(-14, -2))
        style = rng.choice(feel.drums)
        if style != "none" or grid.first_music_bar:
            if rng.random() < 0.85:
                self._add("drums", draw_kit(self.soundfonts, rng), Drummer(grid, style, rng).part())

    def _front_line(self, grid: Grid, changes: Changes) -> None:
        """Steel in four of five pieces, singer or fiddle in half, taking turns or at once."""
        rng = self.rng
        windows = [(0.0, 1.0), (0.0, 0.5), (0.5, 1.0), (0.0, 0.75), (0.25, 1.0)]
        steel_window = rng.choice([(0.0, 1.0), (0.0, 1.0), *windows])
        if rng.random() < 0.8:
            player = SteelPlayer(grid, changes, self.timing_sec, rng)
            self._add("steel", self._steel_voice(), player.line(steel_window))
        if rng.random() < 0.5:
            window = rng.choice(windows)
            self._add("melody", self._melody_voice(),
                      MelodyPlayer(grid, changes, self.timing_sec, rng).line(window))
        if rng.random() < 0.25:
            self._add("melody", self._melody_voice(),
                      MelodyPlayer(grid, changes, self.timing_sec, rng).line(rng.choice(windows)),
                      rng.uniform(-8, 0))
