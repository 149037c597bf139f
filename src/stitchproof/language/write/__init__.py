"""From the instruction tree and numbers to the trade's words."""
