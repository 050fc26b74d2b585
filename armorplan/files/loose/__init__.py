"""Drawings made for a cutter or a printer, SVG and DXF, as the loose lines they hold."""
