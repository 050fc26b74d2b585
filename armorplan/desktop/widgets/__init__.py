"""Widgets that lay out, show and forward."""
