"""Depthwise 5 x 3 convolution and its gradients as Triton kernels, plain layout (B, C, T, S), S up to 128."""

from __future__ import annotations

from typing import Any

import torch
import triton
import triton.language as tl
from torch import Tensor

TAPS = 15


@triton.jit
def _convolve(source, weight, result, channels, frames, semitones, spread_t, spread_s,
              FLIP: tl.constexpr, ROWS: tl.constexpr, COLUMNS: tl.constexpr):
    """``ROWS`` frames of one channel of one item. ``FLIP`` turns the kernel round, which gives the input gradient."""
    plane = tl.program_id(0)
    channel = plane % channels
    base = plane.to(tl.int64) * frames * semitones
    t = tl.program_id(1) * ROWS + tl.arange(0, ROWS)[:, None]
    s = tl.arange(0, COLUMNS)[None, :]
    total = tl.zeros([ROWS, COLUMNS], tl.float32)
    for i in tl.static_range(5):
        for j in tl.static_range(3):
            tt = t + (i - 2) * spread_t
            ss = s + (j - 1) * spread_s
            inside = (tt >= 0) & (tt < frames) & (ss >= 0) & (ss < semitones)
            value = tl.load(source + base + tt * semitones + ss, mask=inside, other=0.0).to(tl.float32)
            if FLIP:
                tap = 14 - (i * 3 + j)
            else:
                tap = i * 3 + j
            total += value * tl.load(weight + channel * 15 + tap)
    tl.store(result + base + t * semitones + s, total.to(result.dtype.element_ty),
             mask=(t < frames) & (s < semitones))


@triton.jit
def _correlate(source, upstream, partial, channels, frames, semitones, spread_t, spread_s,
               ROWS: tl.constexpr, COLUMNS: tl.constexpr):
    """Weight gradient of one channel from one item: (16,) sums, the last unused."""
    channel = tl.program_id(0)
    item = tl.program_id(1)
    base = (item * channels + channel).to(tl.int64) * frames * semitones
    tap = tl.arange(0, 16)[:, None, None]
    row = tl.arange(0, ROWS)[None, :, None]
    s = tl.arange(0, COLUMNS)[None, None, :]
    ss = s + (tap % 3 - 1) * spread_s
    total = tl.zeros([16, ROWS, COLUMNS], tl.float32)
    for start in range(0, frames, ROWS):
        t = start + row
        tt = t + (tap // 3 - 2) * spread_t
        inside = (tt >= 0) & (tt < frames) & (ss >= 0) & (ss < semitones) & (tap < 15)
        value = tl.load(source + base + tt * semitones + ss, mask=inside, other=0.0).to(tl.float32)
        up = tl.load(upstream + base + t * semitones + s, mask=(t < frames) & (s < semitones), other=0.0)
        total += value * up.to(tl.float32)
    sums = tl.sum(tl.sum(total, 2), 1)
    tl.store(partial + (item * channels + channel) * 16 + tl.arange(0, 16), sums)


def _run_convolve(source: Tensor, weight: Tensor, dilation: tuple[int, int], flip: bool) -> Tensor:
    batch, channels, frames, semitones = source.shape
    result = torch.empty_like(source)
    rows = 16
    grid = (batch * channels, triton.cdiv(frames, rows))
    _convolve[grid](source, weight, result, channels, frames, semitones, dilation[0], dilation[1],
                    FLIP=flip, ROWS=rows, COLUMNS=128, num_warps=4)
    return result


class _Depthwise(torch.autograd.Function):
    """Forward and gradients; the weight stays in float32."""

    @staticmethod
    def forward(ctx: Any, source: Tensor, weight: Tensor, spread_t: int, spread_s: int) -> Tensor:
        source, flat = source.contiguous(), weight.reshape(-1, TAPS).float().contiguous()
        ctx.save_for_backward(source, flat)
        ctx.dilation = (spread_t, spread_s)
        ctx.shape = weight.shape
        return _run_convolve(source, flat, ctx.dilation, False)

    @staticmethod
    def backward(ctx: Any, *upstream: Tensor) -> tuple[Tensor, Tensor, None, None]:
        source, flat = ctx.saved_tensors
        up = upstream[0].to(source.dtype).contiguous()
        batch, channels, frames, semitones = source.shape
        partial = torch.empty((batch, channels, 16), device=source.device)
        _correlate[(channels, batch)](source, up, partial, channels, frames, semitones,
                                      ctx.dilation[0], ctx.dilation[1], ROWS=4, COLUMNS=128, num_warps=8)
        gradient = partial.sum(0)[:, :TAPS].reshape(ctx.shape)
        return _run_convolve(up, flat, ctx.dilation, True), gradient, None, None


def depthwise(source: Tensor, weight: Tensor, dilation: tuple[int, int]) -> Tensor:
    """Depthwise convolution of (B, C, T, S) with (C, 1, 5, 3), zero beyond the ends.

    Under autocast the source comes in half precision; sums are made in float32.
    """
    return _Depthwise.apply(source, weight, *dilation)
