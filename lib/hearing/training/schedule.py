"""Learning rate over the time at hand, and the running average of the weights that is kept in the end."""

from __future__ import annotations

import math

import torch
from torch import Tensor, nn

WARM_UP_STEPS = 300
LOWEST_RATE = 1e-5
AVERAGE_DECAY = 0.9992


def learning_rate(step: int, share_done: float, peak: float) -> float:
    """Linear warm-up, then a cosine over the wall clock: ``share_done`` is 0 at the start, 1 at the end."""
    warm = min(1.0, (step + 5) / WARM_UP_STEPS)
    return peak * warm * (0.5 + 0.5 * math.cos(math.pi * min(1.0, share_done))) + LOWEST_RATE


class WeightAverage:
    """Exponential moving average of all floating-point state of a network (Polyak and Juditsky 1992)."""

    def __init__(self, network: nn.Module) -> None:
        self.steps = 0
        self.values: dict[str, Tensor] = {
            name: value.detach().clone() for name, value in network.state_dict().items() if value.is_floating_point()
        }

    @torch.no_grad()
    def update(self, network: nn.Module) -> None:
        """Moves the average towards the present weights, faster while it is young."""
        self.steps += 1
        decay = min(AVERAGE_DECAY, 1 - 1 / (self.steps + 1))
        state = network.state_dict()
        torch._foreach_lerp_(list(self.values.values()), [state[name] for name in self.values], 1 - decay)

    @torch.no_grad()
    def copy_to(self, network: nn.Module) -> None:
        """Loads the average into ``network``."""
        state = network.state_dict()
        for name, value in self.values.items():
            state[name].copy_(value)
