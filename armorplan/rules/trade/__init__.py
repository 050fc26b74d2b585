"""The rules of the trade, one module each: its reason, what it derives, and its examples."""
