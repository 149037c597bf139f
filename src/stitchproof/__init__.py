"""Stitchproof: a crochet pattern as a document that computes and is proved, stitch by stitch."""
