"""Training of the learned ear: music is invented, played, damaged and learned in one run (see README.md)."""
