"""Say what the rules of now would find in specs that were judged before. It changes nothing."""

from typing import Any

from django.core.management.base import BaseCommand, CommandParser

from sessions.flow import SpecState
from sessions.selectors.revalidation import Revalidated, revalidated_specs


class Command(BaseCommand):
    help = (
        "Say, spec by spec, what the rules and settings of now would find that was not found when "
        "it was judged, and what they would no longer find. Nothing is changed."
    )

    def add_arguments(self, parser: CommandParser) -> None:
        parser.add_argument(
            "--state",
            action="append",
            choices=[state.value for state in SpecState],
            help="specs in this state; may be given more than once (signed and checked, if not)",
        )
        parser.add_argument("--all", action="store_true", help="name those that stay the same too")

    def handle(self, *args: Any, **options: Any) -> None:
        states = options["state"] or [SpecState.SIGNED.value, SpecState.CHECKED.value]
        looked = changed = 0
        for one in revalidated_specs(states):
            looked += 1
            changed += one.is_changed
            if one.is_changed or options["all"]:
                self.stdout.write("\n".join(_lines(one)))
        self.stdout.write(f"{looked} looked at, {changed} would be judged otherwise.")


def _lines(one: Revalidated) -> list[str]:
    head = f"{one.title}: judged under {one.was_under}, now {one.now_under}"
    if not one.is_changed:
        return [f"{head}: the same."]
    return [
        f"{head}:",
        *(f"  + {f.severity.label}, {f.id}: {f.sentence}" for f in one.found_now),
        *(f"  - {f.severity.label}, {f.id}: {f.sentence}" for f in one.gone),
        *(
            f"  ~ {now.id}: {was.severity.value}, now {now.severity.value}: {now.sentence}"
            for was, now in one.weighed_otherwise
        ),
    ]
