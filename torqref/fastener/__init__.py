"""Threads, classes and grades; clamp load from torque; whether a value is plausible for a bolt."""
