"""Reads SVG and DXF drawings that know nothing of armour, as loose lines and lettering."""
