"""Practice for an apprentice: judging an order with the reasons of the piece."""
