"""The format-neutral document and its writers."""
