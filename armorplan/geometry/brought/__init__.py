"""Drawings made for a cutter or a printer: loose lines become outlines, holes, slots and engraving."""
