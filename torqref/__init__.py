"""torqref: bolt by bolt at the vehicle, from the printed value to the signed record."""

__version__ = "0.1.0"
