"""One module a command: reads its arguments, asks the rooms below, prints the answer."""
