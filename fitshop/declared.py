"""What the shop itself may set, apart from golf. See `fitshop.setting`."""

from decimal import Decimal

from phonenumbers import SUPPORTED_REGIONS

from fitshop.setting import Setting

SETTINGS: tuple[Setting, ...] = (
    Setting(
        key="shop.phone_region",
        kind="choice",
        default="IE",
        choices=tuple(sorted(SUPPORTED_REGIONS)),
        sentence="The country of a telephone number that is typed without its country's code.",
        source="ISO 3166-1",
    ),
    Setting(
        key="shop.idle_lock_minutes",
        kind="whole",
        default=20,
        unit="minutes",
        low=Decimal(2),
        high=Decimal(240),
        sentence="After how long without a touch a shared tablet asks who is there.",
    ),
)
