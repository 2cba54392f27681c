"""The fitting room's addresses."""

urlpatterns: list = []
