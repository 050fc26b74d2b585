"""The cut list: what is cut of which leather, how long that takes, how it lies on a machine's bed."""
