"""Inventing music: metre, changes and the parts of a country band, as notes with times in seconds."""
