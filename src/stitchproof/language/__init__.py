"""The manuscript, the instruction tree, numbers, and reading and writing the trade's prose."""
