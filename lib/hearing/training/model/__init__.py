"""The network: features, layers, losses and the figures printed while it trains."""
