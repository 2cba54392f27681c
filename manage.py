#!/usr/bin/env python
"""Django's command line."""

import os
import sys


def main() -> None:
    os.umask(0o077)  # what is written here is nobody else's to read
    os.environ.setdefault("DJANGO_SETTINGS_MODULE", "fitshop.settings")
    from django.core.management import execute_from_command_line

    execute_from_command_line(sys.argv)


if __name__ == "__main__":
    main()
