"""Whether a row's status says that its value was not seen in print."""

from __future__ import annotations

_WORDS = ("memory", "not seen", "not found in print", "unverified")


def doubtful(status: str) -> bool:
    """Tell whether a value has to say, wherever it is shown, that nobody saw it in print."""
    said = status.lower().replace("agrees with memory", "")
    return any(word in said for word in _WORDS)
