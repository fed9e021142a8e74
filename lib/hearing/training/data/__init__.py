"""From seeds to training batches: labels on the frame grid, the store of pieces, crops and damage."""
