"""Where the bolts are, in which order they are visited, and the drawing of both."""
