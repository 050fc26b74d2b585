"""Which rows of holes fit which, and which parts look alike, told from distances alone."""
