"""Tensors in one flat file beside a manifest that says where each lies; layout in README.md."""

from __future__ import annotations

import hashlib
import json
from pathlib import Path
from typing import Any, Literal

import numpy as np
import torch

from .fold_batchnorm import Tensors

ALIGNMENT = 16
"""Every tensor begins at a multiple of this many bytes."""

Kind = Literal["float16", "float32"]


def write_tensors(tensors: Tensors, kind: Kind, path: Path, about: dict[str, Any]) -> dict[str, Any]:
    """Writes ``path`` (little-endian, row-major) and the manifest ``path`` with the ending ``.json``.

    ``about`` is added to the manifest. Returns the manifest.
    """
    entries: list[dict[str, Any]] = []
    data = bytearray()
    for name, tensor in tensors.items():
        data += b"\0" * (-len(data) % ALIGNMENT)
        values = tensor.detach().cpu().numpy().astype("<f2" if kind == "float16" else "<f4")
        if not np.isfinite(values).all():
            raise ValueError(f"{name} holds values that {kind} cannot")
        entries.append({"name": name, "shape": list(tensor.shape), "byteOffset": len(data)})
        data += values.tobytes()
    path.write_bytes(bytes(data))
    manifest = {
        "file": path.name,
        "byteLength": len(data),
        "sha256": hashlib.sha256(data).hexdigest(),
        "dtype": kind,
        **about,
        "tensors": entries,
    }
    path.with_suffix(".json").write_text(json.dumps(manifest, indent=1) + "\n")
    return manifest


def read_tensors(path: Path) -> Tensors:
    """Tensors of a file written by ``write_tensors``, as float32.

    Raises ``ValueError`` when the checksum does not fit the manifest.
    """
    manifest = json.loads(path.with_suffix(".json").read_text())
    data = path.read_bytes()
    if hashlib.sha256(data).hexdigest() != manifest["sha256"]:
        raise ValueError(f"{path.name} is not the file that its manifest describes; fetch both again")
    kind = "<f2" if manifest["dtype"] == "float16" else "<f4"
    out: Tensors = {}
    for entry in manifest["tensors"]:
        count = int(np.prod(entry["shape"]))
        values = np.frombuffer(data, kind, count, entry["byteOffset"]).reshape(entry["shape"])
        out[entry["name"]] = torch.from_numpy(values.astype(np.float32))
    return out
