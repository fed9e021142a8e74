"""Crops: twelve seconds of random pieces, mixed anew, at a slightly other speed, with labels that follow."""

from __future__ import annotations

import math
from dataclasses import dataclass

import torch
from torch import Tensor
from torch.nn import functional as F

from ..frames import CROP_FRAMES, CROP_SAMPLES, HOP, PIECE_SAMPLES, SAMPLE_RATE
from ..sound.stems import STEM_PEAK, STEMS
from .piece_store import PieceStore

MOST_CENTS = 40.0
"""Half of the crops run at another speed, up to this many cents of pitch."""

GAIN_DB: dict[str, tuple[float, float]] = {
    "steel": (-13.0, 5.0),
    "melody": (-9.0, 6.0),
    "harmony": (-4.0, 3.0),
    "otherHarmony": (-9.0, 2.0),
    "bass": (-7.0, 4.0),
    "drums": (-14.0, 2.0),
}
"""Range of loudness of each stem, relative to one another."""

PLAIN_GAIN_DB: dict[str, float] = {"steel": -2.0, "melody": -1.0, "harmony": -1.0,
                                   "otherHarmony": -3.0, "bass": -1.0, "drums": -6.0}
"""Loudness in crops that only measure."""

SWAY_DB = 4.0
"""Steel and melody rise and fall slowly by this standard deviation, as with a volume pedal."""

DRUMS_OFF = 0.12

FROM_THE_START = 0.15
"""Share of the crops that begin where the piece does, with its silence, count-in or pick-up."""

WIDEST = 0.75
"""Most crops place a player up to this far from the middle, 1 being a side alone."""

IN_THE_MIDDLE: dict[str, float] = {
    "steel": 0.2, "melody": 0.3, "harmony": 0.2, "otherHarmony": 0.15, "bass": 0.85, "drums": 0.8,
}
"""How often each stem stands in the middle of a crop."""

ALL_IN_THE_MIDDLE, AT_THE_SIDES = 0.15, 0.15
"""Shares of the crops in which everybody stands in the middle, and in which whoever does not stands at one side alone, as
on early stereo records."""

WOW = 0.12
"""Share of the crops whose speed sways as a worn turntable's or tape's does."""

WOW_HZ = (0.5, 1.4)
WOW_SHARE = (0.0005, 0.004)
"""Rate of the sway, about a turn at 33 to 78 a minute, and its size as a share of the speed (up to 7 cents)."""


@dataclass(slots=True)
class Targets:
    """Labels of a batch: ``maps`` (name: (B, T, 96) float), ``chord`` (B, T, 2) long, ``beat`` (B, T, 2) float,
    ``has_beats`` (B,) float. ``maps["offset"]`` is in semitones."""

    maps: dict[str, Tensor]
    chord: Tensor
    beat: Tensor
    has_beats: Tensor


def _uniform(low: float, high: float, shape: tuple[int, ...], generator: torch.Generator) -> Tensor:
    return torch.rand(shape, device=generator.device, generator=generator) * (high - low) + low


def _gains(store: PieceStore, ids: Tensor, varied: bool, generator: torch.Generator) -> Tensor:
    """Amplitude of each stem, (B, 6), for stems stored at full scale."""
    count = len(ids)
    columns = []
    for stem in STEMS:
        if not varied:
            columns.append(torch.full((count,), PLAIN_GAIN_DB[stem], device=store.device))
            continue
        gain = _uniform(*GAIN_DB[stem], (count,), generator)
        if stem == "drums":
            off = _uniform(0, 1, (count,), generator) < DRUMS_OFF
            gain = torch.where(off, torch.full_like(gain, -80.0), gain)
        columns.append(gain)
    level = store.level[ids]
    return 10 ** (torch.stack(columns, 1) / 20) * (level > 0) / level.clamp(min=1e-3) * 0.05


def _places(count: int, generator: torch.Generator) -> Tensor:
    """Gains of left and right of each stem, (B, 6, 2): equal power, 1 and 1 in the middle."""
    far = _uniform(-WIDEST, WIDEST, (count, len(STEMS)), generator)
    draw = _uniform(0, 1, (count, 1), generator)
    far = torch.where(draw < AT_THE_SIDES, far.sign(), far)
    middle = torch.tensor([IN_THE_MIDDLE[stem] for stem in STEMS], device=generator.device)
    stays = (_uniform(0, 1, (count, len(STEMS)), generator) < middle) | (draw > 1 - ALL_IN_THE_MIDDLE)
    angle = (torch.where(stays, 0.0, far) + 1) * (math.pi / 4)
    return math.sqrt(2) * torch.stack([torch.cos(angle), torch.sin(angle)], -1)


def _sway(count: int, generator: torch.Generator) -> Tensor:
    """Slow gain of steel and melody over the crop, (B, 2, samples)."""
    points = torch.randn((count, 2, 9), device=generator.device, generator=generator) * SWAY_DB
    points = points * (_uniform(0, 1, (count, 2, 1), generator) < 0.6)
    slow = F.interpolate(points, size=CROP_SAMPLES, mode="linear", align_corners=True)
    return 10 ** (slow / 20)


def _wow(count: int, generator: torch.Generator) -> Tensor:
    """Samples, (B, samples), by which the place on the record runs ahead of an even speed; at most some 30."""
    rate = _uniform(*WOW_HZ, (count, 1), generator)
    size = _uniform(*WOW_SHARE, (count, 1), generator) * (_uniform(0, 1, (count, 1), generator) < WOW)
    time = torch.arange(CROP_SAMPLES, device=generator.device)[None] / SAMPLE_RATE
    turn = 2 * math.pi * (rate * time + _uniform(0, 1, (count, 1), generator))
    return size * SAMPLE_RATE / (2 * math.pi * rate) * torch.sin(turn)


@torch.no_grad()
def cut_crops(
    store: PieceStore, ids: Tensor, varied: bool, generator: torch.Generator
) -> tuple[Tensor, Targets]:
    """Mixed sound (B, 2, ``CROP_SAMPLES``), left and right, and targets of the pieces ``ids``.

    With ``varied``, speed and its sway, places, stem gains and slow swells of the gains are random; without, all crops
    start at a third of the room and keep speed and ``PLAIN_GAIN_DB``, with everybody in the middle.
    """
    count = len(ids)
    cents = torch.zeros(count, device=store.device)
    room = PIECE_SAMPLES - CROP_SAMPLES * 1.03
    start = torch.full((count,), room / 3, device=store.device)
    if varied:
        other = _uniform(0, 1, (count,), generator) < 0.5
        cents = torch.where(other, _uniform(-MOST_CENTS, MOST_CENTS, (count,), generator), cents)
        start = _uniform(0, room, (count,), generator)
        start = torch.where(_uniform(0, 1, (count,), generator) < FROM_THE_START, torch.zeros_like(start), start)
    speed = 2 ** (cents / 1200)
    start = (start / HOP).floor() * HOP
    sound = _mix(store, ids, start, speed, varied, generator)
    return sound, _labels(store, ids, start / HOP, speed, cents / 100)


def _mix(
    store: PieceStore, ids: Tensor, start: Tensor, speed: Tensor, varied: bool, generator: torch.Generator
) -> Tensor:
    place = start[:, None].double() + torch.arange(CROP_SAMPLES, device=store.device)[None] * speed[:, None].double()
    if varied:
        place = place + _wow(len(ids), generator)
    left = place.floor().long().clamp(0, PIECE_SAMPLES - 2)
    share = (place - left).float()
    gains = _gains(store, ids, varied, generator)
    sway = _sway(len(ids), generator) if varied else None
    places = _places(len(ids), generator) if varied else torch.ones((len(ids), len(STEMS), 2), device=store.device)
    mix = torch.zeros((len(ids), 2, CROP_SAMPLES), device=store.device)
    for index, name in enumerate(STEMS):
        stem = store.sound[ids, index]
        value = torch.gather(stem, 1, left).float() * (1 - share) + torch.gather(stem, 1, left + 1).float() * share
        value = value * (gains[:, index, None] / STEM_PEAK)
        if sway is not None and name in ("steel", "melody"):
            value = value * sway[:, 0 if name == "steel" else 1]
        mix += places[:, index, :, None] * value[:, None]
    return mix


def _labels(store: PieceStore, ids: Tensor, start: Tensor, speed: Tensor, shift: Tensor) -> Targets:
    """Targets at the crop's frames; ``shift`` (B,) is the change of pitch in semitones."""
    frames = start[:, None] + torch.arange(CROP_FRAMES, device=store.device)[None] * speed[:, None]
    last = store.beat.shape[1] - 1
    left = frames.floor().long().clamp(0, last - 1)
    share = (frames - left).clamp(0, 1)[..., None]
    near = frames.round().long().clamp(0, last)
    piece = ids[:, None].expand(-1, CROP_FRAMES)

    def between(label: Tensor) -> Tensor:
        return (label[piece, left].float() * (1 - share) + label[piece, left + 1].float() * share) / 255

    maps = {name: between(store.maps[name]) for name in ("onset", "arrival", "steelOnset", "bandOnset", "bassOnset")}
    maps |= {name: store.maps[name][piece, near].float() for name in ("frame", "steel", "melody", "bass")}
    maps |= {name: store.maps[name][piece, near].float() for name in ("unison", "mechanism")}
    centre = store.maps["centre"][piece, near].float() / 100 + shift[:, None, None]
    maps["offset"] = store.maps["offset"][piece, near].float() / 100 + shift[:, None, None]
    moved = _cross_edges(maps, centre)
    moved["offset"] = moved["offset"] * moved["frame"]
    return Targets(moved, store.chord[piece, near].long(), between(store.beat), store.has_beats[ids])


def _cross_edges(maps: dict[str, Tensor], centre: Tensor) -> dict[str, Tensor]:
    """Moves everything whose centre lies more than half a semitone off into the neighbouring semitone."""
    touched = (maps["frame"] > 0) | (maps["onset"] > 0) | (maps["arrival"] > 0)
    up, down = (centre > 0.5) & touched, (centre < -0.5) & touched
    stay = ~(up | down)
    out = {}
    for name, label in maps.items():
        by = 1.0 if name == "offset" else 0.0
        from_below = F.pad(torch.where(up, label - by, 0.0), (1, 0))[..., :-1]
        from_above = F.pad(torch.where(down, label + by, 0.0), (0, 1))[..., 1:]
        if name == "offset":
            here = torch.where(stay & (maps["frame"] > 0), label, 0.0)
            came = F.pad((up & (maps["frame"] > 0)).float(), (1, 0))[..., :-1] > 0
            fell = F.pad((down & (maps["frame"] > 0)).float(), (0, 1))[..., 1:] > 0
            out[name] = torch.where(here != 0, here, torch.where(came, from_below, torch.where(fell, from_above, here)))
        else:
            out[name] = torch.maximum(torch.where(stay, label, 0.0), torch.maximum(from_below, from_above))
    return out
