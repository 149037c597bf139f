"""Works instructions into stitches: edges, tallies, readings settled, outlines."""
