"""Armorplan: order, drying and bench planning for articulated leather armour.

The packages below lie in layers; arrows point down only (DEVELOPERS.md draws them).
"""

__version__ = "0.1.0"
