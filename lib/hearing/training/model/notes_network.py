"""The notes ear: a network that hears notes alone, in stereo, and says whose they are and what made them glide."""

from __future__ import annotations

from torch import Tensor

from .layers import BALANCE_SHIFTS, LONG_SHIFTS, SHORT_SHIFTS, SIDE_SHIFTS
from .trunk import NoteHead, Trunk, TrunkSize

NOTES_EAR_OUTPUTS: tuple[str, ...] = (
    "onset", "frame", "steel", "offset", "arrival", "melody", "steelOnset", "pedal", "bandOnset",
)
"""Note maps in the order of the output channels; new ones go last. All but ``offset`` are logits; the offset in semitones
is ``0.6 tanh`` of its channel. ``pedal`` is heard only where a glide of the steel arrives: a pedal or lever made it.
``steelOnset`` and ``bandOnset`` are the picks of the steel and the strokes of all others: both rise where they strike
one note together."""

NOTES_SIZES: dict[str, TrunkSize] = {
    "M": TrunkSize(32, 64),
    "W": TrunkSize(32, 96),
}


class NotesNetwork(Trunk):
    """Stereo features (B, 4, T, 288) to note maps (B, 9, T, 96)."""

    def __init__(self, size: TrunkSize) -> None:
        super().__init__(size, (LONG_SHIFTS, SHORT_SHIFTS, SIDE_SHIFTS, BALANCE_SHIFTS))
        self.note = NoteHead(size.channels, len(NOTES_EAR_OUTPUTS))

    def forward(self, features: Tensor) -> Tensor:
        """Hears ``features`` of ``StereoFeatures``."""
        return self.note(self.climb(self.input_norm(features)))
