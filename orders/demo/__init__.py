"""The demo shop: invented makers, models, people and figures, as plain tables."""
