"""Torques, angles and lengths: what people write, exact conversion, and how a value is shown."""
