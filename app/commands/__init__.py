"""What the command can do besides serving."""
