"""What happens at the sign-in is written down like everything else."""

from __future__ import annotations

from datetime import datetime

from fitshop.actor import Actor
from fitshop.models import AuditEntry, Staff
from fitshop.services.audit import audit_record


def sign_in_record(
    *, person: Staff, deed: str, from_address: str, what: str = "", by: Actor, at: datetime
) -> AuditEntry:
    """Write down one event of a person's sign-in.

    `deed`: signed_in, sign_in_failed, locked_out or factor_changed; `what` says which change.
    An attempt under a name that nobody has is not kept: people type passwords there.
    Writes AuditEntry.
    """
    after = {"from": from_address} | ({"what": what} if what else {})
    return audit_record(action=f"shop.staff.{deed}", subject=person, after=after, by=by, at=at)
