"""The shop itself. The Celery app is exposed so that tasks bind to it in every process."""

from fitshop.celery import app as celery_app

__all__ = ["celery_app"]
