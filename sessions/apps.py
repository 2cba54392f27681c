from django.apps import AppConfig


class FittingConfig(AppConfig):
    """The fitting room. Its label is not `sessions`: Django's own app has that one."""

    name = "sessions"
    label = "fitting"
    verbose_name = "Fitting room"
