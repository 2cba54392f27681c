"""How numbers, money, days and clock times look on every page: one place, English only.

Rounded once, here. None is shown as "not measured" (numbers) or nothing (times): a template never
tests a measurement by truthiness.
"""

from datetime import date, datetime, timedelta
from decimal import ROUND_HALF_UP, Decimal
from typing import Any

import phonenumbers
from django import template
from django.template.defaulttags import CsrfTokenNode
from django.utils import timezone
from django.utils.html import format_html
from django.utils.safestring import SafeString, mark_safe

from fitshop.views import kept

register = template.Library()

NOT_MEASURED = "not measured"
MINUS = "\N{MINUS SIGN}"
NO_BREAK = "\N{NO-BREAK SPACE}"


@register.filter
def figure(value: Any, decimals: int = 0) -> str:
    """``{{ carry|figure }}``, ``{{ loft|figure:1 }}``: rounded half up, a true minus sign."""
    if value is None or value == "":
        return NOT_MEASURED
    exact = value if isinstance(value, Decimal) else Decimal(str(value))
    rounded = exact.quantize(Decimal(1).scaleb(-int(decimals)), rounding=ROUND_HALF_UP)
    text = f"{abs(rounded):,f}"
    return MINUS + text if rounded < 0 else text


@register.filter
def trimmed(value: Any, decimals: int = 2) -> str:
    """``{{ loft|trimmed }}``: at most so many decimals, none that are zero (54, 54.5, 54.25)."""
    text = figure(value, decimals)
    return text.rstrip("0").rstrip(".") if "." in text else text


@register.filter
def difference(value: Any, decimals: int = 0) -> str:
    """With its sign: +6, -2 (a true minus), 0 without one."""
    text = figure(value, decimals)
    is_more = text != NOT_MEASURED and not text.startswith(MINUS) and Decimal(text.replace(",", ""))
    return f"+{text}" if is_more else text


@register.filter
def side(value: Any, decimals: int = 0) -> str:
    """How far to which side: "3 left", "4 right", "0"; positive is the player's right."""
    text = figure(value, decimals)
    if text == NOT_MEASURED or Decimal(text.lstrip(MINUS).replace(",", "")) == 0:
        return text.lstrip(MINUS)
    return f"{text.lstrip(MINUS)} {'left' if text.startswith(MINUS) else 'right'}"


@register.filter
def money(value: Any, currency: str = "") -> str:
    """Two decimals, the currency's letters behind: "1,240.00 EUR"."""
    if value is None or value == "":
        return ""
    text = figure(value, 2)
    return f"{text}{NO_BREAK}{currency}" if currency else text


@register.filter
def day(value: date | datetime | None) -> str:
    """ "Fri 7 May 2027", in the active time zone when it is a moment."""
    if value is None:
        return ""
    local = timezone.localtime(value) if isinstance(value, datetime) else value
    return f"{local:%a} {local.day} {local:%b %Y}"


@register.filter
def clock(value: datetime | None) -> str:
    """ "09:14", in the active time zone."""
    return "" if value is None else f"{timezone.localtime(value):%H:%M}"


@register.filter
def moment(value: datetime | None) -> str:
    """ "Fri 7 May 2027 09:14", in the active time zone."""
    return "" if value is None else f"{day(value)} {clock(value)}"


@register.filter
def lasting(value: timedelta | int | None) -> str:
    """A time span, minutes if it is a number: "38 min", "1 h 20 min", "2 h", "3 days"."""
    if value is None:
        return ""
    minutes = round(value.total_seconds() / 60) if isinstance(value, timedelta) else int(value)
    if minutes >= 48 * 60:
        return f"{minutes // (24 * 60)} days"
    hours, rest = divmod(minutes, 60)
    parts = [f"{hours} h" if hours else "", f"{rest} min" if rest or not hours else ""]
    return " ".join(part for part in parts if part)


@register.filter
def counted(number: int, words: str) -> str:
    """``{{ n|counted:"ball,balls" }}``: "1 ball", "5 balls"."""
    one, _, more = words.partition(",")
    return f"{number} {one if number == 1 else more or one + 's'}"


@register.filter
def has_now(steps: list[dict[str, Any]]) -> bool:
    """``{% if steps|has_now %}``: whether the page at hand is one of the steps of the visit."""
    return any(step["state"] == "now" for step in steps)


@register.filter
def telephone(number: str) -> str:
    """``{{ player.phone|telephone }}``: E.164 as people read it, "+353 86 123 4567"."""
    try:
        parsed = phonenumbers.parse(number)
    except phonenumbers.NumberParseException:
        return number
    return phonenumbers.format_number(parsed, phonenumbers.PhoneNumberFormat.INTERNATIONAL)


@register.simple_tag(takes_context=True)
def csrf_token(context: template.Context) -> SafeString:
    """Django's own token, and beside it the seal of who is signed in and on which page.

    By the seal a form that was sent too late finds its way back to who typed it.
    """
    token = mark_safe(CsrfTokenNode().render(context))
    request = context.get("request")
    if not token or request is None or not request.user.is_authenticated:
        return token
    return format_html(
        '{}<input type="hidden" name="{}" value="{}">', token, kept.SEAL, kept.seal_of(request)
    )
