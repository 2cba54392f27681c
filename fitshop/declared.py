"""What the shop itself may set, apart from golf. See `fitshop.setting`."""

from decimal import Decimal

from phonenumbers import SUPPORTED_REGIONS
from phonenumbers.geodata.locale import LOCALE_DATA

from fitshop.setting import Setting


def _country(code: str) -> str:
    """Its English name; the code where there is none. `*fr` points to the name in French."""
    names = LOCALE_DATA.get(code, {})
    name: str = names.get("en", code)
    return names[name[1:]] if name.startswith("*") else name


_REGIONS = tuple(sorted(SUPPORTED_REGIONS))
_REGION_NAMES = tuple(_country(code) for code in _REGIONS)

SETTINGS: tuple[Setting, ...] = (
    Setting(
        key="shop.phone_region",
        kind="choice",
        default="IE",
        choices=_REGIONS,
        choice_names=_REGION_NAMES,
        sentence="The country of a telephone number that is typed without its country's code.",
        source="ISO 3166-1",
    ),
    Setting(
        key="shop.public_address",
        kind="origin",
        default="",
        sentence="The shop's public address. A code on a ticket then opens its page on a "
        "telephone; without one the code is the ticket's number.",
        source="the shop's own",
    ),
    Setting(
        key="shop.idle_lock_minutes",
        kind="whole",
        default=15,
        unit="minutes",
        low=Decimal(2),
        high=Decimal(240),
        sentence="After how long without a touch a shared tablet asks who is there.",
    ),
)
