"""From the author's words to the manuscript and the instruction tree."""
