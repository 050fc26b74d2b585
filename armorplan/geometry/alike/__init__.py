"""Likeness: twins and near twins, copies, and what was changed since a part was cut."""
