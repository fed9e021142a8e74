"""Going on from a weight file alone: the network whose folded tensors it holds, its normalisations put back.

Training needs normalisation by the statistics of each batch. ``Unfolder`` sends one batch through a network that bears
the folded weights and sets each normalisation's scale and shift to that batch's spread and mean, so that the network
computes what the file says. A wider or many-sided network begins as the file's: what it has more reads nothing yet.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator

import torch
from torch import Tensor, nn

from ..model.layers import InvertedResidual
from ..model.network import NOTE_OUTPUTS
from ..model.notes_network import NOTES_EAR_OUTPUTS, NotesNetwork
from .fold_batchnorm import Tensors


def _grown(own: Tensor, earlier: Tensor, rest: str) -> Tensor:
    """``earlier`` in the first places of every extent; elsewhere ``own``, or zeros where ``rest`` is ``silent``."""
    out = own.detach().clone() if rest == "fresh" else torch.zeros_like(own)
    out[tuple(slice(0, extent) for extent in earlier.shape)] = earlier.to(own.device)
    return out


class Unfolder:
    """Puts the tensors of an earlier ear into a ``NotesNetwork``."""

    def __init__(self, network: NotesNetwork, tensors: Tensors) -> None:
        self.network, self.tensors = network, tensors

    def _layers(self) -> Iterator[tuple[str, nn.Parameter, nn.Module, str]]:
        """Name, weight, the normalisation after it, and what places the file does not fill begin with."""
        network = self.network
        yield "stem", network.stem.weight, network.stem_norm, "silent"
        for index, block in enumerate(network.blocks):
            assert isinstance(block, InvertedResidual)
            yield f"block{index}.expand", block.expand.weight, block.expand_norm, "fresh"
            yield f"block{index}.depth", block.depth.weight, block.depth_norm, "fresh"
            yield f"block{index}.project", block.project.weight, block.project_norm, "silent"
        for index, block in enumerate(network.global_time):
            yield f"global.time{index}", block.conv.weight, block.norm, "silent"
        yield "note.mix", network.note.mix.weight, network.note.norm, "silent"

    @torch.no_grad()
    def run(self, features: Tensor, forward: Callable[[Tensor], Tensor]) -> None:
        """Loads the weights, and the normalisations by one batch of ``features`` sent through ``forward``."""
        network, tensors = self.network, self.tensors
        hooks = []
        for name, weight, norm, rest in self._layers():
            earlier = tensors[f"{name}.weight"]
            if name.endswith(".depth"):
                earlier = earlier[:, None]
            weight.copy_(_grown(weight, earlier, rest))
            hooks.append(norm.register_forward_pre_hook(_matching(tensors[f"{name}.bias"])))
        scale = torch.ones(len(network.shifts))
        scale[: len(tensors["input.scale"])] = tensors["input.scale"]
        shift = torch.zeros(len(network.shifts))
        shift[: len(tensors["input.shift"])] = tensors["input.shift"]
        hooks.append(network.input_norm.register_forward_pre_hook(_matching(shift, scale)))
        for name, layer in (
            ("global.in", network.global_in), ("global.dense", network.global_dense), ("global.out", network.global_out)
        ):
            layer.weight.copy_(tensors[f"{name}.weight"].view(layer.weight.shape))
            layer.bias.copy_(tensors[f"{name}.bias"])
        for row, output in enumerate(NOTES_EAR_OUTPUTS):
            if output in NOTE_OUTPUTS:
                earlier_row = NOTE_OUTPUTS.index(output)
                network.note.out.weight[row] = tensors["note.out.weight"][earlier_row].to(network.note.out.weight.device)
                network.note.out.bias[row] = tensors["note.out.bias"][earlier_row]
            else:
                network.note.out.weight[row] *= 0.1
                network.note.out.bias[row] = 0
        network.train()
        forward(features)
        for hook in hooks:
            hook.remove()


def _matching(bias: Tensor, scale: Tensor | None = None) -> Callable[[nn.Module, tuple[Tensor, ...]], None]:
    """A hook that makes a normalisation pass on ``scale * x + bias``; channels beyond those of ``bias`` are left."""

    def match(norm: nn.Module, arguments: tuple[Tensor, ...]) -> None:
        x = arguments[0].detach().float()
        rest = [axis for axis in range(x.dim()) if axis != 1]
        mean, variance = x.mean(rest), x.var(rest, unbiased=False)
        count = len(bias)
        gain = torch.ones(count, device=x.device) if scale is None else scale.to(x.device)
        norm.weight[:count] = gain * torch.sqrt(variance[:count] + norm.eps)
        norm.bias[:count] = bias.to(x.device) + gain * mean[:count]

    return match
