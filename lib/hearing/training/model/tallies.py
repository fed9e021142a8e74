"""Counting right, wrong and missed events on frames."""

from __future__ import annotations

from dataclasses import dataclass

from torch import Tensor
from torch.nn import functional as F


@dataclass(slots=True)
class Tally:
    """Right, wrong and missed events, summed over batches."""

    right: float = 0.0
    wrong: float = 0.0
    missed: float = 0.0

    def add(self, heard: Tensor, true: Tensor, near: int) -> None:
        """Counts peaks (booleans, frames on dimension 1) that have a counterpart within ``near`` frames."""
        true_near, heard_near = _widen(true, near), _widen(heard, near)
        self.right += float((heard & true_near).sum())
        self.wrong += float((heard & ~true_near).sum())
        self.missed += float((true & ~heard_near).sum())

    def __str__(self) -> str:
        precision = self.right / max(1.0, self.right + self.wrong)
        recall = self.right / max(1.0, self.right + self.missed)
        return f"{precision:.3f}/{recall:.3f}/{2 * precision * recall / max(1e-9, precision + recall):.3f}"


def _widen(events: Tensor, by: int) -> Tensor:
    flat = events.float().flatten(2) if events.dim() > 2 else events.float()[..., None]
    grown = F.max_pool2d(flat[:, None], (2 * by + 1, 1), 1, (by, 0))[:, 0] > 0
    return grown.view(events.shape)


def peaks(height: Tensor, threshold: float, reach: int = 2) -> Tensor:
    """Where ``height`` (B, T, ...) is the largest within ``reach`` frames and above ``threshold``."""
    flat = height.flatten(2) if height.dim() > 2 else height[..., None]
    top = F.max_pool2d(flat[:, None], (2 * reach + 1, 1), 1, (reach, 0))[:, 0].view(height.shape)
    return (height >= top) & (height > threshold)
