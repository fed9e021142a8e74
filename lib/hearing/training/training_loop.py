"""The loop: draws crops, damages them, learns, and measures on held-out pieces as it goes."""

from __future__ import annotations

import copy
import json
from collections.abc import Iterable
import time
from dataclasses import asdict, dataclass
from pathlib import Path
from typing import Any

import torch
from torch import Tensor, nn

from .data.crops import Targets, cut_crops
from .data.damage import damage
from .data.piece_store import PieceStore, StoreFiller
from .export.unfold import Unfolder
from .export.weight_file import read_tensors
from .frames import CROP_FRAMES
from .lessons import Lesson
from .model.depthwise import prefer_fast_kernels
from .model.notes_network import NotesNetwork
from .model.trunk import count_parameters, load_weights
from .model.validation import measure
from .schedule import WeightAverage, learning_rate

WEIGHT_DECAY = 1e-3
LONGEST_GRADIENT = 2.0
STATISTICS_BATCHES = 60
"""Batches over which the averaged weights gather their own normalisation statistics."""


@dataclass(frozen=True, slots=True)
class Plan:
    """What a run is asked to do. Times are seconds of wall clock from the start of the program."""

    seed: int
    batch: int
    end_sec: float
    peak_rate: float
    first_pieces: int
    measure_every_sec: float
    compile: bool
    initial: tuple[str, ...]
    """Checkpoints, or one weight file, to go on from; the weights of several checkpoints are averaged."""
    learn: bool


class Trainer:
    """One run over one network."""

    def __init__(
        self, lesson: Lesson, plan: Plan, stores: tuple[PieceStore, PieceStore], filler: StoreFiller,
        started: float, out: Path,
    ) -> None:
        """``stores`` are the pieces to learn from and the held-out ones; ``started`` is the program's start by
        ``time.monotonic``."""
        self.plan, self.filler, self.started, self.out = plan, filler, started, out
        self.learning, self.held_out = stores
        self.device = self.learning.device
        self.on_gpu = self.device.type == "cuda"
        torch.manual_seed(plan.seed)
        self.generator = torch.Generator(self.device)
        self.generator.manual_seed(plan.seed)
        self.say(prefer_fast_kernels(self.device, plan.batch, CROP_FRAMES))
        self.lesson = lesson
        self.features = lesson.features.to(self.device)
        self.network = lesson.network.to(self.device)
        self.say(f"{count_parameters(self.network)} parameters")
        self.hear: Any = torch.compile(self.network) if plan.compile and self.on_gpu else self.network
        self.optimiser = torch.optim.AdamW(
            self.network.parameters(), lr=plan.peak_rate, weight_decay=WEIGHT_DECAY, fused=self.on_gpu
        )
        self.recent: dict[str, float] = {}
        self.history: list[dict[str, Any]] = []
        self.step = 0

    def say(self, text: str) -> None:
        """Prints with the seconds since the start."""
        print(f"[{time.monotonic() - self.started:6.1f}] {text}", flush=True)

    def _batch(self) -> tuple[Tensor, Targets]:
        ids = self.learning.draw(self.plan.batch, self.generator)
        sound, targets = cut_crops(self.learning, ids, True, self.generator)
        return self.features(damage(sound, self.generator)), targets

    def _begin(self) -> None:
        """Takes over the weights to go on from."""
        initial = [Path(each) for each in self.plan.initial]
        if len(initial) == 1 and initial[0].suffix == ".bin":
            if not isinstance(self.network, NotesNetwork):
                raise ValueError("only the notes ear can go on from a weight file")
            unfolder = Unfolder(self.network, read_tensors(initial[0]))
            unfolder.run(self._batch()[0], lambda features: self._forward(features, self.network))
        elif initial:
            states = [torch.load(each, map_location=self.device, weights_only=True) for each in initial]
            load_weights(self.network, mean_weights(states))
        self.say(f"goes on from {', '.join(map(str, initial)) or 'nothing'}")
        self.average = WeightAverage(self.network)

    def _forward(self, features: Tensor, network: Any) -> Any:
        with torch.autocast("cuda", dtype=torch.bfloat16, enabled=self.on_gpu):
            return network(features)

    def _learn(self, share_done: float) -> None:
        rate = learning_rate(self.step, share_done, self.plan.peak_rate)
        for group in self.optimiser.param_groups:
            group["lr"] = rate
        features, targets = self._batch()
        parts = self.lesson.losses(self._forward(features, self.hear), targets)
        self.optimiser.zero_grad(set_to_none=True)
        torch.stack(list(parts.values())).sum().backward()
        nn.utils.clip_grad_norm_(self.network.parameters(), LONGEST_GRADIENT)
        self.optimiser.step()
        self.average.update(self.network)
        if self.step % 20 == 0:
            for name, value in parts.items():
                now = float(value.detach())
                self.recent[name] = 0.8 * self.recent.get(name, now) + 0.2 * now
        self.step += 1

    def wait_for_pieces(self) -> None:
        """Waits until the first pieces and all held-out ones are there."""
        while self.learning.size < self.plan.first_pieces or self.held_out.size < self.held_out.capacity:
            self.filler.check()
            time.sleep(0.1)
        self.say(f"{self.learning.size} pieces to begin with, {self.held_out.size} held out")

    def run(self) -> nn.Module:
        """Trains until the plan's end and returns the averaged network."""
        self.wait_for_pieces()
        self._begin()
        began = time.monotonic()
        next_measure = began + self.plan.measure_every_sec
        end = self.started + self.plan.end_sec
        while self.plan.learn and (now := time.monotonic()) < end:
            self._learn((now - began) / (end - began))
            if self.step in (2, 20, 100) or self.step % 500 == 0:
                self._report(began)
            if time.monotonic() > next_measure:
                self.filler.check()
                self._measure(self.averaged(20), "average")
                next_measure = time.monotonic() + self.plan.measure_every_sec
        self._report(began)
        final = self.averaged(STATISTICS_BATCHES)
        self._measure(final, "final")
        return final

    def _report(self, began: float) -> None:
        parts = " ".join(f"{name} {value:.3f}" for name, value in self.recent.items())
        pace = (time.monotonic() - began) / max(1, self.step)
        total = sum(self.recent.values())
        self.say(f"step {self.step} {pace * 1e3:.1f} ms, {self.learning.added} pieces, loss {total:.3f}: {parts}")

    @torch.no_grad()
    def averaged(self, batches: int) -> nn.Module:
        """A copy with the averaged weights and normalisation statistics gathered over ``batches``."""
        network = copy.deepcopy(self.network)
        self.average.copy_to(network)
        network.train()
        for layer in network.modules():
            if isinstance(layer, (nn.BatchNorm1d, nn.BatchNorm2d)):
                layer.reset_running_stats()
                layer.momentum = None
        for _ in range(batches):
            self._forward(self._batch()[0], network)
        return network.eval()

    def _measure(self, network: nn.Module, what: str) -> None:
        for damaged in (False, True):
            figures = self.lesson.figures()
            measure(network, self.features, figures, self.held_out, damaged, self.on_gpu)
            self.say(f"{what} {'damaged' if damaged else 'clean'}: {figures}")
            self.history.append(
                {
                    "step": self.step,
                    "sec": round(time.monotonic() - self.started, 1),
                    "damaged": damaged,
                    "figures": str(figures),
                }
            )
        torch.save(network.state_dict(), self.out / "checkpoint.pt")

    def summary(self) -> dict[str, Any]:
        """What was done, for the manifest and the log."""
        return {
            "ear": self.lesson.ear,
            "plan": {**asdict(self.plan), "initial": [Path(each).name for each in self.plan.initial]},
            "steps": self.step,
            "pieces": self.learning.added,
            "failedPieces": self.filler.factory.failed,
            "losses": {name: round(value, 4) for name, value in self.recent.items()},
            "history": self.history,
        }

    def write_summary(self) -> None:
        """Writes ``training.json``."""
        (self.out / "training.json").write_text(json.dumps(self.summary(), indent=1))


def mean_weights(states: Iterable[dict[str, Tensor]]) -> dict[str, Tensor]:
    """The mean of the weights of runs that went on from the same ones (Wortsman et al., ICML 2022)."""
    states = list(states)
    first = states[0]
    return {
        name: torch.stack([state[name] for state in states]).mean(0) if value.is_floating_point() else value
        for name, value in first.items()
    }
