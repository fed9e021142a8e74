"""Feels: what metre, tempo, bass, comping and drums go together. Ranges are common practice, no source."""

from __future__ import annotations

import random
from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Feel:
    """A way of playing time.

    ``tempo_bpm`` is the range of the counted beat (dotted quarters where ``beat_parts`` is 3); ``swing`` holds the
    possible places of the off-beat eighth within the beat (0.5 straight, 0.67 triplets). ``drift`` is the least
    standard deviation by which the length of a beat changes from one to the next, as a share.
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
    drift: float = 0.0


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
    Feel("waltz", 1.8, 3, 2, (80, 168), STRAIGHT + (0.6, 0.66), ("waltz", "waltz", "waltz", "long", "roots"),
         ("waltz-chick", "waltz-chick", "arpeggio", "quarters", "eighths"), ("waltz", "waltz", "brushes", "none")),
    Feel("six8", 1.4, 2, 3, (46, 92), STRAIGHT, ("six8", "six8", "long", "roots"),
         ("arpeggio", "six8-strum", "arpeggio", "halves"), ("six8", "six8", "rim", "none")),
    Feel("jig", 1.0, 2, 3, (78, 132), STRAIGHT, ("roots", "six8", "two-beat"), ("six8-strum", "oom-pah"),
         ("none", "none", "six8", "two-beat")),
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
         ("arpeggio", "travis", "eighths", "halves"), ("none", "none", "perc"), 0.02),
)
"""All feels of bands with the weight with which each is drawn."""

GUITAR_FEELS: tuple[Feel, ...] = (
    Feel("song", 1.6, 4, 2, (64, 132), STRAIGHT + (0.56, 0.62), (), ("pattern", "pattern", "strum", "thumb"), (),
         0.006),
    Feel("picking", 1.2, 4, 2, (88, 168), STRAIGHT + (0.55, 0.6), (), ("thumb", "thumb", "bass-strum", "strum"), (),
         0.005),
    Feel("slow", 0.9, 4, 2, (52, 92), STRAIGHT, (), ("pattern-16", "strum-16", "stabs-16", "pattern"), (), 0.008),
    Feel("jazz", 1.1, 4, 2, (84, 208), SWUNG, (), ("stabs", "stabs", "strum", "walk"), (), 0.006),
    Feel("bossa", 0.7, 4, 2, (100, 152), STRAIGHT, (), ("stabs", "walk", "pattern"), (), 0.005),
    Feel("funk", 0.8, 4, 2, (82, 118), STRAIGHT + (0.54,), (), ("strum-16", "stabs-16"), (), 0.005),
    Feel("rock", 0.8, 4, 2, (98, 168), STRAIGHT, (), ("strum", "stabs", "bass-strum"), (), 0.005),
    Feel("waltz", 1.0, 3, 2, (76, 160), STRAIGHT + (0.6,), (), ("pattern", "bass-strum", "strum", "thumb"), (), 0.006),
    Feel("six8", 0.9, 2, 3, (42, 84), STRAIGHT, (), ("pattern", "pattern", "strum"), (), 0.008),
    Feel("jig", 0.4, 2, 3, (86, 126), STRAIGHT, (), ("strum", "bass-strum"), (), 0.005),
)
"""Feels of a guitar alone; ``comping`` names styles of ``lone_guitar_part``."""


def draw_feel(rng: random.Random, feels: tuple[Feel, ...] = FEELS) -> Feel:
    """One of ``feels``, drawn by weight."""
    return rng.choices(feels, [feel.weight for feel in feels])[0]
