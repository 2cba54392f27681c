"""The workshop's doors."""
