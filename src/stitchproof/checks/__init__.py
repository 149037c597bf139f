"""What is found in a manuscript and its fabric: one kind a module."""
