"""From the bytes of a job file to its tables, refused by its place where they are none."""

from __future__ import annotations

import contextlib
import gc
from collections.abc import Iterator
from pathlib import Path
from typing import Any, TypeVar

import msgspec

from store.book.errors import Damaged

Tables = dict[str, dict[str, Any]]

T = TypeVar("T")
_decoder = msgspec.json.Decoder(dict[str, dict[str, dict[str, Any]]])
_raw_decoder = msgspec.json.Decoder(dict[str, msgspec.Raw])
_table_decoder = msgspec.json.Decoder(dict[str, dict[str, Any]])


def decode(path: Path, raw: bytes) -> Tables:
    """The tables of the bytes of a file. Raises Damaged with the place."""
    check_beginning(path, raw)
    return _decoded(path, raw, _decoder)


def decode_raw(path: Path, raw: bytes) -> dict[str, msgspec.Raw]:
    """The tables of the bytes of a file, each still to be decoded. Raises Damaged with the place."""
    return _decoded(path, raw, _raw_decoder)


def decode_table(path: Path, raw: msgspec.Raw) -> dict[str, Any]:
    """One table of a glance. Raises Damaged with the place."""
    return _decoded(path, raw, _table_decoder)


def check_beginning(path: Path, raw: bytes) -> None:
    if not raw:
        raise Damaged(path, "the file is empty (0 bytes)")
    if not raw.lstrip().startswith(b"{"):
        raise Damaged(path, "not a Studbook job (it does not begin with {)", "Give the path of the job file.")


def _decoded(path: Path, raw: bytes | msgspec.Raw, decoder: msgspec.json.Decoder[T]) -> T:
    try:
        with without_collecting():
            return decoder.decode(raw)
    except (msgspec.MsgspecError, UnicodeDecodeError, RecursionError) as error:
        raise Damaged(path, f"can't read it ({error})") from error


@contextlib.contextmanager
def without_collecting() -> Iterator[None]:
    """Many small objects are made at once here, all of them to stay: collecting between them only costs time."""
    was = gc.isenabled()
    gc.disable()
    try:
        yield
    finally:
        if was:
            gc.enable()
