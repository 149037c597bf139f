"""The trade's published tables, each row with its source, and thin loaders."""
