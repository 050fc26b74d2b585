"""Reads and writes TOML and SVG: pattern folders, catalogues, shop files."""
