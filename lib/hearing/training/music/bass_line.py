"""Which notes are the bass line: what the bass plays, or without one the lowest line of those who play the chords."""

from __future__ import annotations

from .notes import Note, Part

HIGHEST_STAND_IN = 55
"""Where no bass plays, thumb or left hand are the bass line up to G3 (MIDI); common practice, no source."""

TOGETHER_SEC = 0.05
"""Notes that begin within this time are one stroke."""


def bass_line(parts: list[Part]) -> list[Note]:
    """Notes of the bass line, in order: at every moment the lowest that is struck while nothing lower sounds on."""
    notes = [note for part in parts if part.role == "bass" for note in part.notes]
    if not notes:
        notes = [
            note for part in parts if part.role == "harmony" for note in part.notes if note.midi <= HIGHEST_STAND_IN
        ]
    notes.sort(key=lambda note: note.start_sec)
    line: list[Note] = []
    for index, note in enumerate(notes):
        together = (
            other for other in notes[max(0, index - 12) : index + 12]
            if other.start_sec - note.start_sec < TOGETHER_SEC and other.end_sec - note.start_sec > TOGETHER_SEC
        )
        if all(other.midi >= note.midi for other in together):
            line.append(note)
    return line
