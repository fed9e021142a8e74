"""Keeps everything that the ear is measured on out of the training."""

from __future__ import annotations

POP909_EVALUATION_IDS: frozenset[str] = frozenset(
    {
        "233", "234", "238", "303", "388", "448", "515", "529", "555", "561", "590", "634", "700", "735", "870",
    }
)
"""Songs of the POP909 dataset that items of the evaluation sets are made of."""


def assert_no_evaluation_song(song_ids: list[str]) -> None:
    """Raises ``ValueError`` naming the songs of ``song_ids`` that belong to an evaluation set."""
    met = sorted(POP909_EVALUATION_IDS.intersection(song_ids))
    if met:
        raise ValueError(f"evaluation songs among the training songs: {', '.join(met)}; take them out and start again")
