"""The convolutions that fill most of the training time: depthwise 5 x 3 and 1 x 1.

``depthwise_kernels`` holds depthwise kernels for an accelerator, used after ``prefer_fast_kernels`` has found them equal
to the framework's and quicker (measured for 32 crops: forward and back 2.9 ms against 6.5 ms).
"""

from __future__ import annotations

import time
from typing import Any, ClassVar

import torch
from torch import Tensor, nn
from torch.nn import functional as F


class DepthwiseConv(nn.Module):
    """Convolution of each channel with its own kernel (frames x semitones), spread by ``dilation``, same size out."""

    fast: ClassVar[bool] = False

    def __init__(self, channels: int, kernel: tuple[int, int], dilation: tuple[int, int]) -> None:
        super().__init__()
        self.dilation = dilation
        self.padding = (kernel[0] // 2 * dilation[0], kernel[1] // 2 * dilation[1])
        self.weight = nn.Parameter(torch.empty(channels, 1, *kernel))
        nn.init.kaiming_uniform_(self.weight, a=5**0.5)

    def forward(self, x: Tensor) -> Tensor:
        """(B, C, T, S) to the same shape."""
        if DepthwiseConv.fast and x.is_cuda:
            from .depthwise_kernels import depthwise

            return depthwise(x, self.weight, self.dilation)
        return F.conv2d(x, self.weight, None, 1, self.padding, self.dilation, groups=x.shape[1])


class PointwiseConv(nn.Module):
    """A 1 x 1 convolution as one matrix product, which keeps the plain layout of memory."""

    def __init__(self, inputs: int, outputs: int, bias: bool) -> None:
        super().__init__()
        self.weight = nn.Parameter(torch.empty(outputs, inputs))
        nn.init.kaiming_uniform_(self.weight, a=5**0.5)
        self.bias = nn.Parameter(torch.zeros(outputs)) if bias else None

    def forward(self, x: Tensor) -> Tensor:
        """(B, inputs, T, S) to (B, outputs, T, S)."""
        y = torch.matmul(self.weight, x.flatten(2)).view(x.shape[0], -1, *x.shape[2:])
        return y if self.bias is None else y + self.bias.to(y.dtype)[None, :, None, None]


def _seconds(run: Any, times: int = 5) -> float:
    run()
    torch.cuda.synchronize()
    start = time.perf_counter()
    for _ in range(times):
        run()
    torch.cuda.synchronize()
    return (time.perf_counter() - start) / times


def prefer_fast_kernels(device: torch.device, batch: int, frames: int) -> str:
    """Switches the fast kernels on where they give the same result and gradients, faster; says what was found."""
    if device.type != "cuda":
        return "no accelerator: the framework's kernels"
    try:
        from .depthwise_kernels import depthwise
    except ImportError as error:
        return f"the framework's kernels ({error})"
    conv = DepthwiseConv(64, (5, 3), (2, 12)).to(device)
    x = torch.randn(batch, 64, frames, 96, device=device).bfloat16().requires_grad_()
    up = torch.randn(batch, 64, frames, 96, device=device).bfloat16()

    def gradients(output: Tensor) -> list[Tensor]:
        return list(torch.autograd.grad(output, [x, conv.weight], up))

    def framework() -> list[Tensor]:
        weight = conv.weight.bfloat16()
        y = F.conv2d(x, weight, None, 1, conv.padding, conv.dilation, groups=64)
        return [y, *gradients(y)]

    def ours() -> list[Tensor]:
        y = depthwise(x, conv.weight, conv.dilation)
        return [y, *gradients(y)]

    try:
        pairs = [(a.detach().float(), b.detach().float()) for a, b in zip(ours(), framework())]
        apart = [float((a - b).norm() / b.norm()) for a, b in pairs]
        slow, fast = _seconds(framework), _seconds(ours)
    except Exception as error:  # noqa: BLE001 - any failure of an optional speed-up means going on without it
        return f"the framework's kernels ({type(error).__name__}: {error})"
    DepthwiseConv.fast = max(apart) < 1e-2 and fast < slow
    return f"fast {DepthwiseConv.fast}: {slow * 1e3:.2f} ms to {fast * 1e3:.2f} ms, apart {max(apart):.1e}"
