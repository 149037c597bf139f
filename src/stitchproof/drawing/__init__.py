"""Geometry in millimetres and SVG."""
