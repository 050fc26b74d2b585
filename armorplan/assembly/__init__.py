"""The armour as an assembly graph: part instances per side, joints, what covers what."""
