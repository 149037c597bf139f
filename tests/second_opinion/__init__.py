"""A plain worker of instructions, held against the fabric."""
