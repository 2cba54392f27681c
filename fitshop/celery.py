"""The clockwork of a real shop: beat sweeps the rows, a worker does what is due."""

import os

from celery import Celery

os.umask(0o077)  # what is written here is nobody else's to read
os.environ.setdefault("DJANGO_SETTINGS_MODULE", "fitshop.settings")

app = Celery("fitshop")
app.config_from_object("django.conf:settings", namespace="CELERY")
app.autodiscover_tasks()
