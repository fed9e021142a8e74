"""Sampled instruments through FluidSynth's library (LGPL-2.1), called by ctypes, driven event by event."""

from __future__ import annotations

import ctypes
import os
from pathlib import Path

import numpy as np
from numpy.typing import NDArray
from scipy.signal import resample_poly

from ..frames import PIECE_SAMPLES, PIECE_SEC, SAMPLE_RATE
from ..music.notes import Note, SampledVoice, swell_gain

SYNTH_RATE = 44100
"""Rate at which the library renders; halved afterwards, so that nothing folds back."""

CHANNELS = 64
BLOCK = 64
"""Samples that the library renders at once: events are rounded down to a block, 1.5 ms."""

BEND_SEMITONES = 12
BEND_SEC = 0.008
"""How often a gliding note's pitch is updated."""

Event = tuple[float, int, str, int, int, int]
"""Seconds, order among events of one time, kind (on, off, bend, control), channel and two values."""


def load_library(folder: Path | None) -> ctypes.CDLL:
    """The library: the system's, or from ``folder`` together with the libraries it needs.

    Raises ``OSError`` naming what could not be loaded.
    """
    if folder is None:
        return ctypes.CDLL("libfluidsynth.so.3")
    waiting = sorted(folder.iterdir())
    for path in list(waiting):
        if path.name.startswith(("libstdc++", "libgcc_s", "libgomp")):
            try:
                ctypes.CDLL(path.name, ctypes.RTLD_GLOBAL)
                waiting.remove(path)
            except OSError:
                continue
    while waiting:
        failed: list[Path] = []
        reason = ""
        for path in waiting:
            try:
                ctypes.CDLL(str(path), ctypes.RTLD_GLOBAL)
            except OSError as error:
                failed.append(path)
                reason = str(error)
        if len(failed) == len(waiting):
            raise OSError(f"cannot load {[path.name for path in failed]}: {reason}")
        waiting = failed
    return ctypes.CDLL(str(folder / "libfluidsynth.so.3"))


class Sampler:
    """A synthesiser with all soundfonts of a folder loaded, effects off."""

    def __init__(self, soundfont_folder: Path, library_folder: Path | None) -> None:
        """Raises ``FileNotFoundError`` when the folder holds no ``.sf2`` file."""
        paths = sorted(soundfont_folder.glob("*.sf2"))
        if not paths:
            raise FileNotFoundError(f"no soundfonts in {soundfont_folder}; put the training soundfonts there")
        self.library = load_library(library_folder)
        self._declare()
        lib = self.library
        settings = lib.new_fluid_settings()
        lib.fluid_settings_setnum(settings, b"synth.sample-rate", float(SYNTH_RATE))
        lib.fluid_settings_setint(settings, b"synth.midi-channels", CHANNELS)
        lib.fluid_settings_setint(settings, b"synth.polyphony", 160)
        lib.fluid_settings_setint(settings, b"synth.reverb.active", 0)
        lib.fluid_settings_setint(settings, b"synth.chorus.active", 0)
        lib.fluid_settings_setnum(settings, b"synth.gain", 0.25)
        self.synth = lib.new_fluid_synth(settings)
        self.fonts = [lib.fluid_synth_sfload(self.synth, os.fsencode(path), 0) for path in paths]

    def _declare(self) -> None:
        """Tells ctypes the argument types of the calls used."""
        lib, pointer, number = self.library, ctypes.c_void_p, ctypes.c_int
        lib.new_fluid_settings.restype = pointer
        lib.new_fluid_synth.restype = pointer
        lib.new_fluid_synth.argtypes = [pointer]
        lib.fluid_settings_setint.argtypes = [pointer, ctypes.c_char_p, number]
        lib.fluid_settings_setnum.argtypes = [pointer, ctypes.c_char_p, ctypes.c_double]
        lib.fluid_synth_sfload.argtypes = [pointer, ctypes.c_char_p, number]
        lib.fluid_synth_write_float.argtypes = [pointer, number, pointer, number, number, pointer, number, number]
        for name, count in (
            ("noteon", 3), ("noteoff", 2), ("cc", 3), ("pitch_bend", 2), ("pitch_wheel_sens", 2),
            ("program_select", 4), ("system_reset", 0), ("set_channel_type", 2),
        ):
            getattr(lib, f"fluid_synth_{name}").argtypes = [pointer] + [number] * count

    def _select(self, channel: int, voice: SampledVoice, bend_semitones: int) -> None:
        lib, synth = self.library, self.synth
        lib.fluid_synth_set_channel_type(synth, channel, 1 if voice.bank == 128 else 0)
        font = self.fonts[voice.soundfont % len(self.fonts)]
        if lib.fluid_synth_program_select(synth, channel, font, voice.bank, voice.program) != 0:
            fallback = 0 if voice.bank == 128 else voice.program
            lib.fluid_synth_program_select(synth, channel, self.fonts[0], voice.bank, fallback)
        lib.fluid_synth_pitch_wheel_sens(synth, channel, bend_semitones)

    def render(self, parts: list[tuple[SampledVoice, list[Note], float]], cents: float) -> NDArray[np.float32]:
        """Mono sound of ``parts`` (voice, notes, gain in dB), ``PIECE_SAMPLES`` samples at 22.05 kHz.

        Pitched parts stand ``cents`` from A4 = 440 Hz; a note that moves gets a channel of its own.
        """
        self.library.fluid_synth_system_reset(self.synth)
        events: list[Event] = []
        free = CHANNELS
        channel = 0
        for voice, notes, gain_db in parts:
            moving = [note for note in notes if note.moves]
            still = [note for note in notes if not note.moves]
            own = min(12, max(1, (free - len(parts)) // max(1, len(parts)))) if moving else 0
            if channel + 1 + own > CHANNELS:
                break
            volume = int(np.clip(100 * 10 ** (gain_db / 40), 1, 127))
            detune = 0.0 if voice.bank == 128 else cents
            self._select(channel, voice, 2)
            events.append((0, 0, "bend", channel, 8192 + round(detune / 200 * 8192), 0))
            events.append((0, 0, "control", channel, 7, volume))
            for note in still:
                events.append((note.start_sec, 2, "on", channel, int(note.midi), note.velocity))
                events.append((note.end_sec, 1, "off", channel, int(note.midi), 0))
            lent = [[-9.0, channel + 1 + index] for index in range(own)]
            for _, number in lent:
                self._select(int(number), voice, BEND_SEMITONES)
                events.append((0, 0, "control", int(number), 7, volume))
            for note in sorted(moving, key=lambda each: each.start_sec):
                lent.sort()
                lent[0][0] = note.end_sec + 0.05
                events += _moving_events(note, int(lent[0][1]), detune)
            channel += 1 + own
        return self._run(events)

    def _run(self, events: list[Event]) -> NDArray[np.float32]:
        total = int(PIECE_SEC * SYNTH_RATE)
        sound = np.zeros((total, 2), np.float32)
        lib, synth, done = self.library, self.synth, 0

        def advance(until: int) -> None:
            nonlocal done
            if until > done:
                address = sound[done:].ctypes.data
                lib.fluid_synth_write_float(synth, until - done, address, 0, 2, address, 1, 2)
                done = until

        for time, _, kind, channel, first, second in sorted(events, key=lambda event: (event[0], event[1])):
            advance(min(total, int(time * SYNTH_RATE) // BLOCK * BLOCK))
            if kind == "on":
                lib.fluid_synth_noteon(synth, channel, first, second)
            elif kind == "off":
                lib.fluid_synth_noteoff(synth, channel, first)
            elif kind == "bend":
                lib.fluid_synth_pitch_bend(synth, channel, first)
            else:
                lib.fluid_synth_cc(synth, channel, first, second)
        advance(total)
        mono = resample_poly(sound.mean(1), 1, SYNTH_RATE // SAMPLE_RATE)
        return mono[:PIECE_SAMPLES].astype(np.float32)


def _moving_events(note: Note, channel: int, cents: float) -> list[Event]:
    """Events of a note that glides, shakes or swells, on its own channel."""
    key = int(round(note.midi))
    times = np.arange(note.start_sec, note.end_sec, BEND_SEC)
    bends = np.clip(8192 + (note.pitch(times) - key + cents / 100) / BEND_SEMITONES * 8192, 0, 16383).astype(int)
    events: list[Event] = []
    last = -1
    for time, bend in zip(times.tolist(), bends.tolist()):
        if bend != last:
            events.append((time - 0.002 if last < 0 else time, 0, "bend", channel, bend, 0))
            last = bend
    if note.swell_sec > 0:
        gains = swell_gain(times - note.start_sec, note.swell_sec)
        expression = np.clip(np.round(127 * np.sqrt(gains)), 1, 127).astype(int)
        steps = np.nonzero(np.diff(expression, prepend=-1))[0]
        events += [
            (float(times[step]) - (0.002 if step == 0 else 0), 0, "control", channel, 11, int(expression[step]))
            for step in steps
        ]
    else:
        events.append((note.start_sec - 0.002, 0, "control", channel, 11, 127))
    events.append((note.start_sec, 2, "on", channel, key, note.velocity))
    events.append((note.end_sec, 1, "off", channel, key, 0))
    return events
