"""Sizes that the training, the export and the inference share.

Frame ``i`` is centred on sample ``HOP * i`` of audio at ``SAMPLE_RATE``. Semitone index ``s`` (0 to 95) is MIDI
pitch ``LOWEST_MIDI + s``; each semitone owns three constant-Q bins with its centre in the middle one.
"""

SAMPLE_RATE = 22050
"""Samples a second of everything the network hears (mono)."""

HOP = 512
"""Samples from one frame to the next: 23.2 ms."""

FRAMES_PER_SEC = SAMPLE_RATE / HOP

LOWEST_MIDI = 24
"""MIDI pitch of semitone index 0: C1, 32.7 Hz."""

SEMITONES = 96
BINS_PER_SEMITONE = 3
BINS = SEMITONES * BINS_PER_SEMITONE

PIECE_SEC = 24.0
"""Length of one invented piece."""

PIECE_SAMPLES = int(PIECE_SEC * SAMPLE_RATE)
PIECE_FRAMES = PIECE_SAMPLES // HOP + 1

CROP_FRAMES = 516
"""Frames of one training crop: 12 s, a multiple of the four frames that make one chord frame."""

CROP_SAMPLES = (CROP_FRAMES - 1) * HOP

CHORD_POOL = 4
"""Frames averaged into one chord frame: 10.8 chord frames a second."""
