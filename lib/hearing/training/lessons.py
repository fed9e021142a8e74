"""What can be learned: the ear of beats and changes, or the notes ear; each with what it sees and how it is judged."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from typing import Any

from torch import Tensor, nn

from .data.crops import Targets
from .model.features import Features, StereoFeatures
from .model.losses import losses, note_losses
from .model.network import SIZES, EarNetwork
from .model.note_figures import NoteFigures
from .model.notes_network import NOTES_SIZES, NotesNetwork
from .model.validation import Figures

EARS: tuple[str, ...] = ("changes", "notes")


@dataclass(frozen=True, slots=True)
class Lesson:
    """``features`` of mid and side go into ``network``; ``losses`` of what it says are lessened."""

    ear: str
    size: str
    network: nn.Module
    features: nn.Module
    losses: Callable[[Any, Targets], dict[str, Tensor]]
    figures: Callable[[], Any]


def lesson(ear: str, size: str) -> Lesson:
    """The lesson of one of ``EARS`` at a size of its network.

    Raises ``KeyError`` for a size that this ear does not have.
    """
    if ear == "notes":
        return Lesson(ear, size, NotesNetwork(NOTES_SIZES[size]), StereoFeatures(), note_losses, NoteFigures)
    return Lesson(ear, size, EarNetwork(SIZES[size]), Features(), losses, Figures)
