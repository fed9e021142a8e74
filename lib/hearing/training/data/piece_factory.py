"""Worker processes that turn seeds into pieces for as long as training wants them."""

from __future__ import annotations

import multiprocessing as mp
import os
import queue
import random
from dataclasses import dataclass
from multiprocessing.context import ForkProcess
from pathlib import Path
from typing import Any

from ..music.arrangement import Arranger
from ..sound.fluid_synth import Sampler
from ..sound.stems import Stems, render_stems
from .frame_labels import FrameLabels, label_frames

VALIDATION_OFFSET = 900_000_000
"""Added to the seeds of pieces that are never trained on."""

SEEDS_PER_RUN = 1_000_000


@dataclass(frozen=True, slots=True)
class Piece:
    """A finished piece; ``held_out`` ones only measure."""

    seed: int
    held_out: bool
    stems: Stems
    labels: FrameLabels


@dataclass(frozen=True, slots=True)
class Ingredients:
    """Where the inputs lie: POP909 songs, soundfonts, and FluidSynth's libraries (None: the system's)."""

    songs: Path
    soundfonts: Path
    libraries: Path | None


def make_piece(seed: int, held_out: bool, ingredients: Ingredients, sampler: Sampler) -> Piece:
    """The piece of ``seed``: the same seed gives the same piece."""
    rng = random.Random(seed + (VALIDATION_OFFSET if held_out else 0))
    arrangement = Arranger(ingredients.songs, len(sampler.fonts), rng).draw()
    return Piece(seed, held_out, render_stems(arrangement, sampler), label_frames(arrangement))


def _work(worker: int, workers: int, run_seed: int, held_out: int, ingredients: Ingredients, out: Any) -> None:
    """Body of a worker: its share of the held-out pieces first, then pieces to learn from without end."""
    os.nice(5)
    sampler = Sampler(ingredients.soundfonts, ingredients.libraries)
    first = run_seed * SEEDS_PER_RUN
    for number in range(worker, SEEDS_PER_RUN, workers):
        is_held_out = number < held_out
        seed = number if is_held_out else first + number
        try:
            out.put(make_piece(seed, is_held_out, ingredients, sampler))
        except Exception as error:  # noqa: BLE001 - one bad seed must not end an hour's work; it is counted and named
            out.put(f"seed {seed}: {error!r}")


class PieceFactory:
    """Runs the workers. Start it before the accelerator is touched, since workers are forked."""

    def __init__(self, workers: int, run_seed: int, held_out: int, ingredients: Ingredients) -> None:
        """``held_out`` pieces are made first, the same for every ``run_seed``, then training pieces of that seed."""
        context = mp.get_context("fork")
        self._out: Any = context.Queue(maxsize=48)
        self.failed: list[str] = []
        self._processes: list[ForkProcess] = [
            context.Process(
                target=_work, args=(worker, workers, run_seed, held_out, ingredients, self._out), daemon=True
            )
            for worker in range(workers)
        ]
        for process in self._processes:
            process.start()

    def next_piece(self, timeout_sec: float) -> Piece | None:
        """The next finished piece, or None when none came in time.

        Raises ``RuntimeError`` when all workers have died or twenty seeds have failed.
        """
        try:
            made = self._out.get(timeout=timeout_sec)
        except queue.Empty:
            if not any(process.is_alive() for process in self._processes):
                raise RuntimeError("every worker has ended; see its message above") from None
            return None
        if isinstance(made, str):
            self.failed.append(made)
            if len(self.failed) >= 20:
                raise RuntimeError(f"twenty pieces failed, the last: {made}")
            return None
        return made

    def stop(self) -> None:
        """Ends the workers."""
        for process in self._processes:
            process.terminate()
