"""The workshop's addresses."""

urlpatterns: list = []
