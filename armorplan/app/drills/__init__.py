"""Exercises made from a build: a module for each kind, which makes, judges and solves it."""
