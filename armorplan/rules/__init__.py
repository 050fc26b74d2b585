"""One module a rule: from assembly and steps to relations, with reasons."""
