"""One file for each command: what it takes, what it does, what it shows."""
