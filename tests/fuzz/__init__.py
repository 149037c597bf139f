"""Manuscripts made up by chance, and those that once broke something."""
