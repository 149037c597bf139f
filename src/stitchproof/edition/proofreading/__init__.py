"""What is found when an edition is read over before it is published, one kind a module."""
