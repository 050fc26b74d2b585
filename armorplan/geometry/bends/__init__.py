"""Bends: how far layers slide, what a bend takes of the leather, how large a part becomes."""
