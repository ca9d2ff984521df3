"""Is what was kept still what was put there, and under the name it was put?"""

from __future__ import annotations

import hashlib

LENGTH = 16


def seal(name: str, data: bytes) -> bytes:
    """The data with a digest in front that holds for this name alone, so that no row passes for another."""
    return _digest(name, data) + data


def unseal(name: str, kept: object) -> bytes | None:
    """The data behind a seal; None where anything of it, or of its name, is not as it was."""
    if not isinstance(kept, bytes) or len(kept) < LENGTH:
        return None
    data = kept[LENGTH:]
    return data if kept[:LENGTH] == _digest(name, data) else None


def _digest(name: str, data: bytes) -> bytes:
    said = name.encode("utf-8", "surrogatepass")
    return hashlib.blake2b(data, digest_size=LENGTH, key=hashlib.sha256(said).digest()).digest()
