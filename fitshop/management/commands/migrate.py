"""Django's `migrate`, which also says the code that the first start asks for."""

from typing import Any

from django.core.management.commands.migrate import Command as Migrate

from fitshop.selectors import first_start_code


class Command(Migrate):
    def handle(self, *args: Any, **options: Any) -> None:
        super().handle(*args, **options)
        code = first_start_code()
        if code is not None and options["verbosity"] > 0:
            self.stdout.write(f"The first start asks for this code: {code}")
