"""What the flat outlines tell: areas, rows that meet, placing, covering."""
