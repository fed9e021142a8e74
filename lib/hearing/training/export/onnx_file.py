"""The same network for readers of ONNX; optional, since the plain weight file says everything."""

from __future__ import annotations

import argparse
from pathlib import Path

import torch

from ..frames import BINS
from .fold_batchnorm import Tensors
from .folded_network import FoldedEar
from .weight_file import read_tensors

OUTPUTS = ["notes", "chord", "bass", "beat"]


def write_onnx(tensors: Tensors, path: Path) -> None:
    """Writes an ONNX model with a free number of frames (a multiple of four).

    Raises what the exporter raises; needs the ``onnx`` package.
    """
    example = torch.zeros(1, 2, 64, BINS)
    axes = {"features": {2: "frames"}, "notes": {2: "frames"}, "beat": {2: "frames"}}
    axes |= {"chord": {1: "chordFrames"}, "bass": {1: "chordFrames"}}
    torch.onnx.export(
        FoldedEar(tensors).eval(), (example,), str(path), input_names=["features"], output_names=OUTPUTS,
        dynamic_axes=axes, opset_version=17, dynamo=False,
    )


if __name__ == "__main__":
    parser = argparse.ArgumentParser(description="Writes the ONNX form of a weight file.")
    parser.add_argument("weights", type=Path, help="ear.bin, with ear.json beside it")
    parser.add_argument("onnx", type=Path)
    asked = parser.parse_args()
    write_onnx(read_tensors(asked.weights), asked.onnx)
