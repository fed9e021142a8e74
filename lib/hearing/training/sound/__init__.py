"""Sounding the parts: sampled instruments, an additive voice and a plucked-string loop, mixed into stems."""
