"""The web process's entry."""

import os

from django.core.wsgi import get_wsgi_application

os.umask(0o077)  # what is written here is nobody else's to read
os.environ.setdefault("DJANGO_SETTINGS_MODULE", "fitshop.settings")

application = get_wsgi_application()
