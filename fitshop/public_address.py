"""The shop's address as others reach it: what stands in codes on paper and in links of letters.

Paper and letters leave this machine, so an address that only this machine knows is none.
"""

from __future__ import annotations

import re
from ipaddress import ip_address
from urllib.parse import urlsplit

NAME = re.compile(
    r"(?=.{1,200}$)[a-z0-9](?:[a-z0-9-]*[a-z0-9])?(?:\.[a-z0-9](?:[a-z0-9-]*[a-z0-9])?)*"
)
WANTED = "Type https:// and the shop's name on the network, as in https://fitting.shop.example."


def origin_read(typed: str) -> str:
    """Return scheme, name and port of an address, without a path. Raises ValueError.

    The error is a sentence for the person who typed.
    """
    text = typed.strip()
    if any(each.isspace() or not each.isprintable() for each in text):
        raise ValueError(WANTED)
    try:
        parts = urlsplit(text)
        name, port = (parts.hostname or "").lower(), parts.port
    except ValueError:
        raise ValueError(WANTED) from None
    if parts.scheme.lower() not in ("http", "https") or "@" in parts.netloc or port == 0:
        raise ValueError(WANTED)
    if parts.path not in ("", "/") or "?" in text or "#" in text:
        raise ValueError("Type the address alone, with nothing after the name.")
    if not _is_ip(name) and not NAME.fullmatch(name):
        raise ValueError(WANTED)
    if is_loopback(name):
        raise ValueError(f"Only this machine reaches {name}. Type the name that others use.")
    shown = f"[{name}]" if ":" in name else name
    return f"{parts.scheme.lower()}://{shown}{f':{port}' if port is not None else ''}"


def is_loopback(name: str) -> bool:
    """Whether only the machine itself is called by this name."""
    host = name.lower().rstrip(".")
    if host == "localhost" or host.endswith(".localhost"):
        return True
    if not _is_ip(host):
        return False
    address = ip_address(host)
    return address.is_loopback or address.is_unspecified


def _is_ip(name: str) -> bool:
    try:
        ip_address(name)
    except ValueError:
        return False
    return True
