"""From a drawing with no words to a pattern: what is suggested, what is confirmed, what is written."""
