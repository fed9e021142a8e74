"""The inference, written down once more from the exported tensors alone.

This is what a reader of the weight file has to compute; the reference vectors come from here, from the tensors as
rounded in the file. Names and shapes are those of README.md.
"""

from __future__ import annotations

import torch
from torch import Tensor, nn
from torch.nn import functional as F

from ..frames import CHORD_POOL, SEMITONES
from ..model.layers import BALANCE_SHIFTS, LONG_SHIFTS, SHORT_SHIFTS, SIDE_SHIFTS, stack_harmonics, wrap_classes
from ..model.network import BEAT_DILATIONS, CHORD_BLOCKS, FOLDED
from ..model.trunk import BLOCK_DILATIONS, GLOBAL_AFTER, GLOBAL_DILATIONS, flatten_semitones
from .fold_batchnorm import Tensors


class _FoldedTrunk(nn.Module):
    """What both networks have in common."""

    shifts: tuple[tuple[int, ...], ...]

    def __init__(self, tensors: Tensors) -> None:
        super().__init__()
        self.names = {name: name.replace(".", "_") for name in tensors}
        for name, value in tensors.items():
            self.register_buffer(self.names[name], value.float())

    def _tensor(self, name: str) -> Tensor:
        return getattr(self, self.names[name])

    def _point(self, x: Tensor, name: str) -> Tensor:
        """Mixes the channels of (B, C, T, S) at every point."""
        weight = self._tensor(f"{name}.weight")
        return F.conv2d(x, weight[:, :, None, None], self._tensor(f"{name}.bias"))

    def _time(self, x: Tensor, name: str, dilation: int) -> Tensor:
        """A residual over five frames of (B, C, T)."""
        weight, bias = self._tensor(f"{name}.weight"), self._tensor(f"{name}.bias")
        return x + F.relu(F.conv1d(x, weight, bias, padding=2 * dilation, dilation=dilation))

    def _dense(self, x: Tensor, name: str) -> Tensor:
        """Mixes the channels of (B, C, T) at every frame."""
        return F.conv1d(x, self._tensor(f"{name}.weight")[:, :, None], self._tensor(f"{name}.bias"))

    def _input(self, features: Tensor) -> Tensor:
        scale, shift = self._tensor("input.scale"), self._tensor("input.shift")
        return features * scale[None, :, None, None] + shift[None, :, None, None]

    def _climb(self, x: Tensor) -> Tensor:
        stem = self._tensor("stem.weight"), self._tensor("stem.bias")
        h = F.relu(F.conv2d(stack_harmonics(x, self.shifts), *stem, stride=(1, 3), padding=(1, 2)))
        for index, (dt, ds) in enumerate(BLOCK_DILATIONS):
            y = F.relu(self._point(h, f"block{index}.expand"))
            weight = self._tensor(f"block{index}.depth.weight")[:, None]
            bias = self._tensor(f"block{index}.depth.bias")
            y = F.relu(F.conv2d(y, weight, bias, 1, (2 * dt, ds), (dt, ds), groups=weight.shape[0]))
            h = h + self._point(y, f"block{index}.project")
            if index == GLOBAL_AFTER - 1:
                h = h + self._global(h)
        return F.relu(h)

    def _notes(self, h: Tensor) -> Tensor:
        return self._point(F.relu(self._point(h, "note.mix")), "note.out")

    def _global(self, h: Tensor) -> Tensor:
        g = F.relu(self._dense(flatten_semitones(self._point(h, "global.in")), "global.dense"))
        for index, dilation in enumerate(GLOBAL_DILATIONS):
            g = self._time(g, f"global.time{index}", dilation)
        return self._dense(g, "global.out").unsqueeze(-1)


class FoldedNotesEar(_FoldedTrunk):
    """Stereo features (B, 4, T, 288) to the raw note maps (B, 9, T, 96)."""

    shifts = (LONG_SHIFTS, SHORT_SHIFTS, SIDE_SHIFTS, BALANCE_SHIFTS)

    def forward(self, features: Tensor) -> Tensor:
        """Note maps."""
        return self._notes(self._climb(self._input(features)))


class FoldedEar(_FoldedTrunk):
    """Features (B, 2, T, 288), T a multiple of four, to the raw outputs: notes (B, 9, T, 96), chord (B, T/4, 121),
    bass (B, T/4, 13), beat (B, 2, T)."""

    shifts = (LONG_SHIFTS, SHORT_SHIFTS)

    def forward(self, features: Tensor) -> tuple[Tensor, Tensor, Tensor, Tensor]:
        """Notes, chord, bass, beat."""
        x = self._input(features)
        h = self._climb(x)
        chord, bass = self._chords(h)
        return self._notes(h), chord, bass, self._beats(h, x)

    def _chords(self, h: Tensor) -> tuple[Tensor, Tensor]:
        octaves = SEMITONES // 12
        k = F.avg_pool2d(self._point(h, "chord.in"), (CHORD_POOL, 1))
        batch, _, frames, _ = k.shape
        k = k.reshape(batch, FOLDED, frames, octaves, 12).permute(0, 3, 1, 2, 4)
        k = k.reshape(batch, octaves * FOLDED, frames, 12)
        k = F.relu(self._circle(k, "chord.circle"))
        for index, (dilation, circular) in enumerate(CHORD_BLOCKS):
            weight = self._tensor(f"chord.block{index}.time.weight")[:, None, :, None]
            bias = self._tensor(f"chord.block{index}.time.bias")
            y = F.relu(F.conv2d(k, weight, bias, 1, (2 * dilation, 0), (dilation, 1), groups=weight.shape[0]))
            name = f"chord.block{index}.mix"
            mixed = self._circle(y, name) if circular else self._mix(y, name)
            k = k + F.relu(mixed)
        by_class = self._point(k, "chord.out")
        none = F.linear(k.mean(-1).transpose(1, 2), self._tensor("chord.none.weight"), self._tensor("chord.none.bias"))
        qualities = by_class[:, :-1].permute(0, 2, 3, 1).flatten(2)
        return torch.cat([qualities, none[..., :1]], -1), torch.cat([by_class[:, -1], none[..., 1:]], -1)

    def _circle(self, k: Tensor, name: str) -> Tensor:
        """A kernel over all twelve pitch classes: output class p sees input class (p + i) mod 12 at tap i."""
        weight = self._tensor(f"{name}.weight")[:, :, None]
        return F.conv2d(wrap_classes(k), weight, self._tensor(f"{name}.bias"))

    def _mix(self, k: Tensor, name: str) -> Tensor:
        return F.conv2d(k, self._tensor(f"{name}.weight")[:, :, None], self._tensor(f"{name}.bias"))

    def _beats(self, h: Tensor, x: Tensor) -> Tensor:
        short = F.avg_pool2d(x[:, 1:2], (1, 3))[:, 0].transpose(1, 2)
        rise = F.relu(short - F.pad(short, (1, 0))[..., :-1])
        z = torch.cat([flatten_semitones(self._point(h, "beat.in")), short, rise], 1)
        z = F.relu(self._dense(z, "beat.dense"))
        for index, dilation in enumerate(BEAT_DILATIONS):
            z = self._time(z, f"beat.time{index}", dilation)
        return self._dense(z, "beat.out")
