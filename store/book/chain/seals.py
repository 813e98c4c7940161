"""The seal of one entry of the history.

Each is a digest of the entry and of the seal before it, so an entry that was altered, taken out or slipped in by hand
is noticed. The seal is no secret: it guards against mistakes and shortcuts, not against forgers.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import Any

import msgspec

_encode = msgspec.json.Encoder(order="deterministic").encode


def whole_seal(past: str, docs: Sequence[Mapping[str, Any]]) -> str:
    """The seal of a history as it is, whatever became of it: of the digest of what is packed, and of the entries."""
    import hashlib

    return hashlib.sha256(past.encode() + _encode(list(docs))).hexdigest()[:24]


def seal_of(before: str, doc: Mapping[str, Any]) -> str:
    """The seal of an entry's document that follows a seal."""
    import hashlib  # brings a whole cryptographic library; only what looks at seals needs it

    bare = {key: value for key, value in doc.items() if key != "seal"}
    return hashlib.sha256(before.encode() + _encode(bare)).hexdigest()[:24]
