"""Trains an ear, anew or on from an earlier run; see README.md.

``python3 -m training.run --ear notes --inputs FOLDER --out OUT --minutes 10 --seed 1``, from the folder above this one.
"""

from __future__ import annotations

import argparse
import os
import platform
import tarfile
import time
from pathlib import Path

for _name in ("OMP_NUM_THREADS", "OPENBLAS_NUM_THREADS", "MKL_NUM_THREADS"):
    os.environ.setdefault(_name, "1")

from .data.piece_factory import Ingredients, PieceFactory  # noqa: E402
from .music.pop_songs import check_songs  # noqa: E402


def read_arguments() -> argparse.Namespace:
    """The command line."""
    parser = argparse.ArgumentParser(description="Trains the learned ear on music that it invents.")
    parser.add_argument("--inputs", type=Path, required=True, help="folder with pop.pkl.xz, sf.txz and libs.txz")
    parser.add_argument("--out", type=Path, required=True, help="folder for weights, log and vectors")
    parser.add_argument("--minutes", type=float, default=14, help="wall clock of the whole run, export included")
    parser.add_argument("--seed", type=int, default=1)
    parser.add_argument("--ear", choices=("changes", "notes"), default="changes")
    parser.add_argument("--size", default="M", help="S, M or L for changes, M or W for notes")
    parser.add_argument("--batch", type=int, default=32, help="crops of 12 s in a step")
    parser.add_argument("--rate", type=float, default=3e-3, help="highest learning rate")
    parser.add_argument("--workers", type=int, default=max(1, (os.cpu_count() or 2) - 1))
    parser.add_argument("--capacity", type=int, default=5000, help="pieces kept on the accelerator, 8 MB each")
    parser.add_argument("--held-out", type=int, default=96)
    parser.add_argument("--first", type=int, default=200, help="pieces that must be there before training starts")
    parser.add_argument("--measure-every", type=float, default=120, help="seconds between figures on held-out pieces")
    parser.add_argument("--initial", type=Path, nargs="*", default=[],
                        help="what to go on from: checkpoint.pt of an earlier run, several of one size to take the mean of"
                             " their weights, or for notes the weight file of either ear")
    parser.add_argument("--only-measure", action="store_true", help="no learning: statistics, figures and export")
    parser.add_argument("--no-compile", action="store_true")
    return parser.parse_args()


def unpack(inputs: Path, out: Path) -> Ingredients:
    """Unpacks soundfonts and libraries beside the output; without ``libs.txz`` the system's FluidSynth is used."""
    workshop = out / "unpacked"
    workshop.mkdir(parents=True, exist_ok=True)
    with tarfile.open(inputs / "sf.txz") as archive:
        archive.extractall(workshop, filter="data")
    libraries = inputs / "libs.txz"
    if libraries.exists():
        with tarfile.open(libraries) as archive:
            archive.extractall(workshop, filter="data")
    return Ingredients(
        inputs / "pop.pkl.xz", workshop / "sf", workshop / "libs" if libraries.exists() else None
    )


EXPORT_SEC = 16.0
"""Kept back from the minutes for the export."""


def main() -> None:
    """Makes pieces in all cores while the accelerator learns, then writes what the inference needs."""
    started = time.monotonic()
    asked = read_arguments()
    asked.out.mkdir(parents=True, exist_ok=True)
    ingredients = unpack(asked.inputs, asked.out)
    print(f"{check_songs(ingredients.songs)} songs, none of an evaluation set; {os.cpu_count()} cores", flush=True)
    factory = PieceFactory(asked.workers, asked.seed, asked.held_out, ingredients)

    import torch

    from .data.piece_store import PieceStore, StoreFiller
    from .export.bundle import write_bundle
    from .lessons import lesson
    from .training_loop import Plan, Trainer

    print(f"Python {platform.python_version()}, torch {torch.__version__}", flush=True)
    device = torch.device("cuda" if torch.cuda.is_available() else "cpu")
    torch.backends.cudnn.benchmark = True
    stores = (PieceStore(asked.capacity, device), PieceStore(asked.held_out, device))
    filler = StoreFiller(factory, *stores)
    plan = Plan(
        seed=asked.seed,
        batch=asked.batch,
        end_sec=asked.minutes * 60 - EXPORT_SEC,
        peak_rate=asked.rate,
        first_pieces=asked.first,
        measure_every_sec=asked.measure_every,
        compile=not asked.no_compile,
        initial=tuple(map(str, asked.initial)),
        learn=not asked.only_measure,
    )
    taught = lesson(asked.ear, asked.size)
    trainer = Trainer(taught, plan, stores, filler, started, asked.out)
    network = trainer.run()
    trainer.write_summary()
    filler.stop()
    write_bundle(taught, network, asked.out, trainer.summary(), trainer.say)
    trainer.say("done")


if __name__ == "__main__":
    main()
