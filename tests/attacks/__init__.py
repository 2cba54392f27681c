"""What a shop's enemy, or its own careless staff, would try at the doors."""
