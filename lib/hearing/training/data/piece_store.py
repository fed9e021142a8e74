"""All pieces at hand, on the accelerator: filled while training runs, the oldest replaced when it is full."""

from __future__ import annotations

import threading

import torch

from ..frames import PIECE_FRAMES, PIECE_SAMPLES, SEMITONES
from ..sound.stems import STEMS
from .piece_factory import Piece, PieceFactory

NOTE_MAPS: tuple[str, ...] = (
    "onset", "frame", "steel", "melody", "arrival", "steelOnset", "bass", "bassOnset", "unison", "mechanism",
    "bandOnset",
)
"""Label maps stored as unsigned bytes, (pieces, T, 96)."""

PITCH_MAPS: tuple[str, ...] = ("offset", "centre")
"""Label maps in cents, (pieces, T, 96) signed bytes."""


RESERVE = 64
"""Oldest pieces of a full store that are no longer drawn, since the next ones are being written over them."""


class PieceStore:
    """Tensors over pieces, written by one thread while another draws from them.

    ``sound`` (pieces, 6 stems, samples) int16; ``level`` (pieces, 6); ``maps`` by name; ``chord`` (pieces, T, 2);
    ``beat`` (pieces, T, 2); ``has_beats`` (pieces,). About 8 MB a piece.
    """

    def __init__(self, capacity: int, device: torch.device) -> None:
        self.capacity, self.device = capacity, device
        self.added = 0
        self._stream = torch.cuda.Stream(device) if device.type == "cuda" else None
        self.sound = torch.zeros((capacity, len(STEMS), PIECE_SAMPLES), dtype=torch.int16, device=device)
        self.level = torch.zeros((capacity, len(STEMS)), device=device)
        note_shape = (capacity, PIECE_FRAMES, SEMITONES)
        self.maps = {name: torch.zeros(note_shape, dtype=torch.uint8, device=device) for name in NOTE_MAPS}
        self.maps |= {name: torch.zeros(note_shape, dtype=torch.int8, device=device) for name in PITCH_MAPS}
        self.chord = torch.full((capacity, PIECE_FRAMES, 2), -1, dtype=torch.int16, device=device)
        self.beat = torch.zeros((capacity, PIECE_FRAMES, 2), dtype=torch.uint8, device=device)
        self.has_beats = torch.zeros(capacity, device=device)

    @property
    def size(self) -> int:
        """Pieces that can be drawn."""
        return min(self.added, self.capacity)

    def add(self, piece: Piece) -> None:
        """Stores ``piece``, over the oldest one when full; on a stream of its own, so that learning need not wait."""
        if self._stream is None:
            self._write(piece)
        else:
            with torch.cuda.stream(self._stream):
                self._write(piece)
            self._stream.synchronize()
        self.added += 1

    def _write(self, piece: Piece) -> None:
        slot, labels = self.added % self.capacity, piece.labels
        self.sound[slot].copy_(torch.from_numpy(piece.stems.sound))
        self.level[slot].copy_(torch.from_numpy(piece.stems.level))
        for name, target in self.maps.items():
            target[slot].copy_(torch.from_numpy(getattr(labels, name)))
        self.chord[slot].copy_(torch.from_numpy(labels.chord))
        self.beat[slot].copy_(torch.from_numpy(labels.beat))
        self.has_beats[slot].fill_(float(labels.has_beats))

    def draw(self, count: int, generator: torch.Generator) -> torch.Tensor:
        """Indices of ``count`` random pieces."""
        newest = self.added
        oldest = 0 if newest <= self.capacity - RESERVE else newest - self.capacity + RESERVE
        numbers = torch.randint(oldest, newest, (count,), device=self.device, generator=generator)
        return numbers % self.capacity


class StoreFiller:
    """A thread that moves pieces from the factory into the stores."""

    def __init__(self, factory: PieceFactory, learning: PieceStore, held_out: PieceStore) -> None:
        self.factory, self.learning, self.held_out = factory, learning, held_out
        self.error: Exception | None = None
        self._stopped = threading.Event()
        self._thread = threading.Thread(target=self._run, daemon=True)
        self._thread.start()

    def _run(self) -> None:
        try:
            while not self._stopped.is_set():
                piece = self.factory.next_piece(0.5)
                if piece is not None:
                    (self.held_out if piece.held_out else self.learning).add(piece)
        except Exception as error:  # noqa: BLE001 - handed to the training loop, which raises it
            self.error = error

    def check(self) -> None:
        """Raises what stopped the filling, if anything did."""
        if self.error is not None:
            raise self.error

    def stop(self) -> None:
        """Ends thread and workers."""
        self._stopped.set()
        self._thread.join(timeout=5)
        self.factory.stop()
