"""Types, ranges and units at the fitting room's doors."""
