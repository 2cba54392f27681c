"""Is it alive, is it ready: for `make run`, the front server and whoever watches the shop."""

import shutil
from datetime import timedelta

from django.conf import settings
from django.db import DatabaseError, connection
from django.db.migrations.executor import MigrationExecutor
from django.http import HttpRequest, HttpResponse, JsonResponse
from django.utils import timezone
from django.views.decorators.http import require_safe

from fitshop.models import Heartbeat, MessageStatus, OutgoingMessage

LEAST_FREE_BYTES = 200 * 1024 * 1024
LATE = timedelta(minutes=5)


@require_safe
def livez(request: HttpRequest) -> HttpResponse:
    """The process answers. Touches nothing."""
    return HttpResponse("ok\n", content_type="text/plain")


@require_safe
def readyz(request: HttpRequest) -> HttpResponse:
    """Database, migrations, disk, the oldest due message, the clockwork's heartbeat.

    A late message or a silent clockwork is `degraded`, not unready: pages still work.
    """
    now = timezone.now()
    try:
        executor = MigrationExecutor(connection)
        is_migrated = not executor.migration_plan(executor.loader.graph.leaf_nodes())
        oldest = (
            OutgoingMessage.objects.filter(status=MessageStatus.PENDING, due_at__lte=now)
            .order_by("due_at")
            .values_list("due_at", flat=True)
            .first()
            if is_migrated
            else None
        )
        beat = Heartbeat.objects.filter(name="messages").first() if is_migrated else None
    except DatabaseError:
        return JsonResponse({"ready": False, "database": "does not answer"}, status=503)
    has_room = shutil.disk_usage(settings.BASE_DIR).free > LEAST_FREE_BYTES
    is_ready = is_migrated and has_room
    late = oldest is not None and now - oldest > LATE
    silent = beat is None or now - beat.at > LATE
    return JsonResponse(
        {
            "ready": is_ready,
            "degraded": late or silent,
            "migrated": is_migrated,
            "disk": "ok" if has_room else "nearly full",
            "oldest_due_message_s": round((now - oldest).total_seconds()) if oldest else None,
            "last_sweep_s": round((now - beat.at).total_seconds()) if beat else None,
        },
        status=200 if is_ready else 503,
    )
