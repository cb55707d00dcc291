"""Putting a file down: whole or not at all, and never over one that is there, unasked."""

from __future__ import annotations

import os
import tempfile
from pathlib import Path

from hemcalc.errors import HemError, shown

__all__ = ["write_whole"]


def write_whole(path: str | os.PathLike[str], content: bytes, *, replace: bool = False) -> Path:
    """Write a file so that it is there whole or not at all.

    Parameters
    ----------
    path : str or path-like
        Where; its folder must be there.
    content : bytes
        What.
    replace : bool
        Whether a file that is there already may be written over.

    Returns
    -------
    Path
        Where it is.

    Raises
    ------
    HemError
        If a file is there already, or the place can't be written to.

    Examples
    --------
    >>> import tempfile
    >>> with tempfile.TemporaryDirectory() as folder:
    ...     file = write_whole(f"{folder}/list.csv", b"linen")
    ...     file.read_bytes()
    b'linen'
    """
    if not isinstance(path, str | os.PathLike) or not os.fspath(path):
        raise HemError(
            f"path is {shown(path)}, but must be the name of a file; for example 'list.csv'.", "path"
        )
    target = Path(path)
    said = shown(target.name or str(target))
    if target.is_dir():
        raise HemError(f"{said} is a folder, but must be a file's name; for example 'list.csv'.", "path")
    try:
        handle, beside = tempfile.mkstemp(prefix=".hemcalc-", dir=target.parent)
        try:
            with os.fdopen(handle, "wb") as file:
                file.write(content)
            # What a new file may be read by is the folder's matter, not this one's.
            os.chmod(beside, 0o666 & ~_umask())
            _put(beside, target, replace)
        finally:
            Path(beside).unlink(missing_ok=True)
    except FileExistsError:
        raise HemError(
            f"{said} is there already and is left as it was; choose another name, or say replace=True.",
            "path",
        ) from None
    except (OSError, ValueError) as error:
        why = getattr(error, "strerror", None) or "no such name is possible"
        raise HemError(
            f"{said} can't be written ({why}), but must be in a folder that you may write to; "
            "for example 'list.csv'.",
            "path",
        ) from None
    return target


def _put(beside: str, target: Path, replace: bool) -> None:
    """Give the finished file its name; of two who write at once only one can have a new name."""
    if not replace:
        os.close(os.open(target, os.O_CREAT | os.O_EXCL | os.O_WRONLY))
    try:
        os.replace(beside, target)
    except OSError:
        if not replace:
            target.unlink(missing_ok=True)
        raise


def _umask() -> int:
    mask = os.umask(0)
    os.umask(mask)
    return mask
