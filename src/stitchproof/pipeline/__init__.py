"""The one path from a manuscript to everything made from it; joins sizing and fabric."""
