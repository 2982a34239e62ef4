"""When a request is sent again, and after which pause.

All calculations are pure, so sending one twice does no harm. Sent again are requests that found no server,
lost their connection, or were answered 429 or 503. A time-out while the service computes, the client's or the
service's own, is final: the same work would only take the same time again.
"""

from __future__ import annotations

import random
from datetime import UTC, datetime
from email.utils import parsedate_to_datetime

import httpx
import msgspec

__all__ = ["OF_THE_REQUEST", "Outcome", "pause_before_retry", "retry_after", "service_took"]

Outcome = httpx.Response | httpx.RequestError
"""What became of one attempt."""

FIRST_PAUSE = 0.25
LONGEST_PAUSE = 8.0
LONGEST_ADVICE = 60.0
"""[s]. When the service asks for a longer wait than this, the caller decides, not the client."""

OF_THE_REQUEST = "/deadline-exceeded"
"""The problem type of 503 that comes again whenever the request does."""

_FAULTS_WORTH_REPEATING = (
    httpx.NetworkError,
    httpx.RemoteProtocolError,
    httpx.ConnectTimeout,
    httpx.PoolTimeout,
)
_STATUSES_WORTH_REPEATING = (429, 503)
_STATUSES_OF_TOO_MUCH = (429, 502, 503, 504)


def pause_before_retry(outcome: Outcome, attempt: int) -> float | None:
    """Pause [s] before the attempt after number ``attempt`` (from 0), None when the outcome is final.

    Doubles from attempt to attempt, with jitter so that many clients do not come back at once; never shorter
    than the service's ``Retry-After``.
    """
    pause = min(LONGEST_PAUSE, FIRST_PAUSE * 2.0**attempt) * random.uniform(0.5, 1.0)
    if isinstance(outcome, httpx.RequestError):
        return pause if isinstance(outcome, _FAULTS_WORTH_REPEATING) else None
    if outcome.status_code not in _STATUSES_WORTH_REPEATING or _took_too_long(outcome):
        return None
    advice = retry_after(outcome)
    if advice is None:
        return pause
    return advice + pause if advice <= LONGEST_ADVICE else None


def _took_too_long(response: httpx.Response) -> bool:
    try:
        document = msgspec.json.decode(response.content)
    except msgspec.DecodeError:
        return False
    return isinstance(document, dict) and str(document.get("type")).endswith(OF_THE_REQUEST)


def retry_after(response: httpx.Response) -> float | None:
    """The ``Retry-After`` header in seconds from now (RFC 9110, 10.2.3: seconds or a date), else None."""
    text = response.headers.get("Retry-After", "").strip()
    if text.isascii() and text.isdigit():
        return float(text)
    try:
        moment = parsedate_to_datetime(text)
    except ValueError:
        return None
    if moment.tzinfo is None:
        moment = moment.replace(tzinfo=UTC)
    return max(0.0, (moment - datetime.now(UTC)).total_seconds())


def service_took(outcome: Outcome) -> bool:
    """Whether the service dealt with the request, so that as many may be under way."""
    return isinstance(outcome, httpx.Response) and outcome.status_code not in _STATUSES_OF_TOO_MUCH
