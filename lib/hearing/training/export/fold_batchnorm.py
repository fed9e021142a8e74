"""A trained network as plain tensors: every normalisation folded into the convolution before it."""

from __future__ import annotations

import torch
from torch import Tensor, nn

from ..model.layers import InvertedResidual, PitchClassResidual, TimeResidual
from ..model.network import EarNetwork
from ..model.notes_network import NotesNetwork
from ..model.trunk import NoteHead, Trunk

Tensors = dict[str, Tensor]
"""Float32 tensors on the CPU by name, in the order in which they are written."""


def _affine(norm: nn.BatchNorm1d | nn.BatchNorm2d) -> tuple[Tensor, Tensor]:
    """Scale and shift of a normalisation with its gathered statistics."""
    if norm.running_mean is None or norm.running_var is None:
        raise ValueError("a normalisation without statistics cannot be folded")
    scale = norm.weight / torch.sqrt(norm.running_var + norm.eps)
    return scale, norm.bias - norm.running_mean * scale


def _folded(weight: Tensor, norm: nn.BatchNorm1d | nn.BatchNorm2d) -> tuple[Tensor, Tensor]:
    """Weight (outputs first) and bias that do the work of a convolution and the normalisation after it."""
    scale, shift = _affine(norm)
    return weight * scale.view(-1, *[1] * (weight.dim() - 1)), shift


class Folder:
    """Gathers tensors by name."""

    def __init__(self) -> None:
        self.out: Tensors = {}

    def put(self, name: str, weight: Tensor, bias: Tensor | None) -> None:
        """Adds a weight and its bias.

        Raises ``ValueError`` for a layer that has none.
        """
        if bias is None:
            raise ValueError(f"{name} has no bias")
        self.out[f"{name}.weight"] = weight.detach().clone()
        self.out[f"{name}.bias"] = bias.detach().clone()

    def put_times(self, prefix: str, blocks: nn.ModuleList) -> None:
        """Adds residuals over time."""
        for index, block in enumerate(blocks):
            if not isinstance(block, TimeResidual):
                raise TypeError("unexpected block")
            self.put(f"{prefix}{index}", *_folded(block.conv.weight, block.norm))

    def put_trunk(self, network: Trunk) -> None:
        """Adds the trunk."""
        put = self.put
        self.out["input.scale"], self.out["input.shift"] = (value.clone() for value in _affine(network.input_norm))
        put("stem", *_folded(network.stem.weight, network.stem_norm))
        for index, block in enumerate(network.blocks):
            if not isinstance(block, InvertedResidual):
                raise TypeError("unexpected block")
            put(f"block{index}.expand", *_folded(block.expand.weight, block.expand_norm))
            put(f"block{index}.depth", *_folded(block.depth.weight[:, 0], block.depth_norm))
            put(f"block{index}.project", *_folded(block.project.weight, block.project_norm))
        put("global.in", network.global_in.weight, network.global_in.bias)
        put("global.dense", network.global_dense.weight[..., 0], network.global_dense.bias)
        self.put_times("global.time", network.global_time)
        put("global.out", network.global_out.weight[..., 0], network.global_out.bias)

    def put_notes(self, head: NoteHead) -> None:
        """Adds the head of the note maps."""
        self.put("note.mix", *_folded(head.mix.weight, head.norm))
        self.put("note.out", head.out.weight, head.out.bias)

    def put_changes_and_beats(self, network: EarNetwork) -> None:
        """Adds the heads of chords, bass and beats."""
        put = self.put
        put("chord.in", network.chord_in.weight, network.chord_in.bias)
        put("chord.circle", *_folded(network.chord_circle.weight[:, :, 0], network.chord_norm))
        for index, block in enumerate(network.chord_blocks):
            if not isinstance(block, PitchClassResidual):
                raise TypeError("unexpected block")
            put(f"chord.block{index}.time", *_folded(block.time.weight[:, 0, :, 0], block.time_norm))
            put(f"chord.block{index}.mix", *_folded(block.mix.weight[:, :, 0], block.mix_norm))
        put("chord.out", network.chord_out.weight, network.chord_out.bias)
        put("chord.none", network.chord_none.weight, network.chord_none.bias)
        put("beat.in", network.beat_in.weight, network.beat_in.bias)
        put("beat.dense", *_folded(network.beat_dense.weight[..., 0], network.beat_norm))
        self.put_times("beat.time", network.beat_time)
        put("beat.out", network.beat_out.weight[..., 0], network.beat_out.bias)


@torch.no_grad()
def fold(network: EarNetwork | NotesNetwork) -> Tensors:
    """All tensors of ``network`` for inference. Shapes are given in README.md."""
    network = network.float().cpu().eval()
    folder = Folder()
    folder.put_trunk(network)
    folder.put_notes(network.note)
    if isinstance(network, EarNetwork):
        folder.put_changes_and_beats(network)
    return folder.out
