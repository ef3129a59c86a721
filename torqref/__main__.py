"""Lets `python -m torqref` do the same as the command `torqref`."""

from torqref.cli import main

if __name__ == "__main__":
    raise SystemExit(main())
