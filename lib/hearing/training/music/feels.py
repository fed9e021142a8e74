"""Feels: what metre, tempo, bass, comping and drums go together. Ranges are common practice, no source."""

from __future__ import annotations

import random
from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Feel:
    """A way of playing time.

    ``tempo_bpm`` is the range of the counted beat (dotted quarters where ``beat_parts`` is 3); ``swing`` holds the
    possible places of the off-beat eighth within the beat (0.5 straight, 0.67 triplets).
    """

    name: str
    weight: float
    beats_per_bar: int
    beat_parts: int
    tempo_bpm: tuple[float, float]
    swing: tuple[float, ...]
    bass: tuple[str, ...]
    comping: tuple[str, ...]
    drums: tuple[str, ...]


STRAIGHT = (0.5,)
SWUNG = (0.58, 0.6, 0.62, 0.64, 0.66, 0.67, 0.69)

FEELS: tuple[Feel, ...] = (
    Feel("two-beat", 1.5, 4, 2, (118, 182), STRAIGHT + (0.54, 0.58), ("two-beat", "two-beat", "two-beat", "walking"),
         ("boom-chick", "chick", "chick", "eighths", "banjo-roll"), ("two-beat", "train", "brushes", "two-beat")),
    Feel("train", 1.2, 4, 2, (118, 176), STRAIGHT, ("two-beat", "eighths", "two-beat", "roots"),
         ("boom-chick", "train-strum", "eighths", "chick"), ("train", "train", "train", "brushes")),
    Feel("shuffle", 1.5, 4, 2, (92, 146), SWUNG, ("walking", "two-beat", "shuffle", "walking", "quarters"),
         ("chick", "quarters", "shuffle-comp", "boom-chick", "eighths"), ("shuffle", "shuffle", "brushes", "ride")),
    Feel("straight8", 1.5, 4, 2, (84, 140), STRAIGHT, ("eighths", "one-three", "syncopated", "roots", "two-beat"),
         ("eighths", "eighths", "syncopated", "arpeggio", "quarters"), ("backbeat", "backbeat", "backbeat", "rim")),
    Feel("ballad", 1.3, 4, 2, (54, 88), STRAIGHT + (0.62, 0.67), ("one-three", "long", "syncopated", "roots"),
         ("arpeggio", "eighths", "halves", "quarters", "travis"), ("rim", "brushes", "backbeat", "rim")),
    Feel("triplet-ballad", 0.5, 4, 3, (52, 84), STRAIGHT, ("one-three", "long", "triplet-pickup"),
         ("arpeggio", "quarters", "halves"), ("triplets", "rim")),
    Feel("waltz", 1.5, 3, 2, (80, 168), STRAIGHT + (0.6, 0.66), ("waltz", "waltz", "waltz", "long", "roots"),
         ("waltz-chick", "waltz-chick", "arpeggio", "quarters", "eighths"), ("waltz", "waltz", "brushes", "none")),
    Feel("six8", 1.1, 2, 3, (46, 92), STRAIGHT, ("six8", "six8", "long", "roots"),
         ("arpeggio", "six8-strum", "arpeggio", "halves"), ("six8", "six8", "rim", "none")),
    Feel("jig", 0.5, 2, 3, (78, 128), STRAIGHT, ("roots", "six8", "two-beat"), ("six8-strum", "oom-pah"),
         ("none", "none", "six8")),
    Feel("reel", 0.7, 4, 2, (80, 152), STRAIGHT + (0.58,), ("two-beat", "roots"), ("oom-pah", "boom-chick", "quarters"),
         ("none", "none", "two-beat", "perc")),
    Feel("polka", 0.3, 2, 2, (88, 132), STRAIGHT, ("two-beat", "roots"), ("oom-pah", "boom-chick", "chick"),
         ("two-beat", "none", "backbeat")),
    Feel("rock", 0.8, 4, 2, (100, 168), STRAIGHT, ("eighths", "eighths", "roots", "syncopated"),
         ("eighths", "quarters", "syncopated"), ("backbeat", "four", "backbeat")),
    Feel("pop", 1.2, 4, 2, (62, 128), STRAIGHT, ("syncopated", "one-three", "long", "eighths", "roots"),
         ("arpeggio", "syncopated", "halves", "quarters", "eighths"), ("backbeat", "backbeat", "four", "perc", "none")),
    Feel("swing", 0.7, 4, 2, (92, 196), (0.6, 0.64, 0.67), ("walking", "two-beat"),
         ("quarters", "syncopated", "chick"), ("ride", "brushes", "none")),
    Feel("bossa", 0.4, 4, 2, (104, 150), STRAIGHT, ("one-three", "syncopated"), ("syncopated", "bossa"),
         ("perc", "rim", "none")),
    Feel("free", 0.6, 4, 2, (56, 172), STRAIGHT + SWUNG, ("roots", "long", "two-beat", "eighths"),
         ("arpeggio", "travis", "eighths", "halves"), ("none", "none", "perc")),
)
"""All feels with the weight with which each is drawn."""


def draw_feel(rng: random.Random) -> Feel:
    """A feel, drawn by weight."""
    return rng.choices(FEELS, [feel.weight for feel in FEELS])[0]
