"""Figures and sheets for paper and screen, drawn without Qt."""
