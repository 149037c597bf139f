"""Places in text, findings and units: the standard library only."""
