"""The relation language: pure values and the questions one can ask of them."""
