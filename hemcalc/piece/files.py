"""Files read with care and written whole: what stands on the disk is the old or the new, never half.

A file is written beside its place under a passing name, and takes the place only when all of
it is on the disk. Nothing that is there already is written over unasked.
"""

from __future__ import annotations

import os
import secrets
import stat
from contextlib import suppress
from typing import NoReturn

from hemcalc.measure.errors import HemError, shown, true_or_false

_EXAMPLE = "for example 'bread_cloth.json'."


def file_name(path: object, about: str = "path") -> str:
    """The path as text, if it is one.

    Examples
    --------
    >>> file_name("bread_cloth.json")
    'bread_cloth.json'
    >>> file_name(3)
    Traceback (most recent call last):
    hemcalc.HemError: path is 3, but must be the name of a file, as text or a Path; for example ...
    """
    name = path if isinstance(path, str) else os.fspath(path) if isinstance(path, os.PathLike) else None
    try:
        # No system takes a longer one, and to look for it folder by folder would take seconds.
        named = isinstance(name, str) and name.strip() and "\0" not in name and len(os.fsencode(name)) <= 4096
    except UnicodeEncodeError:  # half a sign
        named = False
    if not named:
        raise HemError(
            f"{about} is {shown(path)}, but must be the name of a file, as text or a Path; {_EXAMPLE}", about
        )
    assert isinstance(name, str)
    return name


def read_file(path: object, *, most: int) -> bytes:
    """What a file holds; one of more bytes than `most` is refused before it is read."""
    name = file_name(path)
    try:
        # Looked at first: to open a pipe would wait for ever for its other end.
        if not stat.S_ISREG(os.stat(name).st_mode):
            _refuse_what_is_no_file(name)
        with open(name, "rb") as file:
            held = file.read(most + 1)
    except (OSError, ValueError) as error:
        _refuse(name, "read", error)
    if len(held) > most:
        raise HemError(
            f"The file {_called(name)} is larger than the {most:,} bytes that are read of one; "
            f"choose one that hemcalc has written, {_EXAMPLE}",
            "path",
        )
    return held


def write_file(path: object, content: bytes, *, replace: bool = False) -> None:
    """Write a file whole, or leave all as it was; its folder must be there.

    With `replace` a file that is there already may be written over. A link is followed, and the
    file that it leads to replaced, with the permissions that it had.

    Raises
    ------
    HemError
        If there is such a file and `replace` is not True, or it can't be written.
    """
    name = file_name(path)
    true_or_false(replace, "replace")
    if os.path.isdir(name):
        _refuse_what_is_no_file(name)
    if not replace and os.path.lexists(name):
        _refuse_to_overwrite(name)
    place = os.path.realpath(name)
    passing = os.path.join(os.path.dirname(place), f".{secrets.token_hex(8)}.hemcalc")
    held = False
    try:
        mode = _mode_of(place, name)
        _write_down(passing, content, mode)
        if mode is None:
            # Takes the name only if nobody else has taken it since.
            os.close(os.open(place, os.O_CREAT | os.O_EXCL | os.O_WRONLY))
            held = True
        os.replace(passing, place)
        held = False
        _keep_the_folder(place)
    except FileExistsError:
        _refuse_to_overwrite(name)
    except (OSError, ValueError) as error:
        _refuse(name, "written", error)
    finally:
        with suppress(OSError, ValueError):
            os.unlink(passing)
        if held:
            with suppress(OSError):
                os.unlink(place)


def _mode_of(place: str, name: str) -> int | None:
    """Permissions of the file that is to be replaced; None if there is none."""
    try:
        there = os.stat(place)
    except FileNotFoundError:
        return None
    if not stat.S_ISREG(there.st_mode):
        _refuse_what_is_no_file(name)
    if not os.access(place, os.W_OK):
        raise PermissionError
    return stat.S_IMODE(there.st_mode)


def _write_down(place: str, content: bytes, mode: int | None) -> None:
    with open(place, "xb") as file:
        if mode is not None:
            os.chmod(place, mode)
        file.write(content)
        file.flush()
        os.fsync(file.fileno())


def _keep_the_folder(place: str) -> None:
    """Have the new name itself on the disk, where the system can do that for a folder."""
    with suppress(OSError):
        folder = os.open(os.path.dirname(place), os.O_RDONLY)
        try:
            os.fsync(folder)
        finally:
            os.close(folder)


def _refuse_to_overwrite(name: str) -> NoReturn:
    raise HemError(
        f"There is a file {_called(name)} already, and nothing is written over unasked; choose another name, "
        "or say replace=True to replace it.",
        "path",
    ) from None


def _refuse_what_is_no_file(name: str) -> NoReturn:
    what = "a folder" if os.path.isdir(name) else "no ordinary file"
    raise HemError(f"{_called(name)} is {what}, but a file is wanted; {_EXAMPLE}", "path")


def _refuse(name: str, done: str, error: Exception) -> NoReturn:
    if isinstance(error, HemError):
        raise error
    folder = os.path.dirname(name) or "."
    if isinstance(error, FileNotFoundError | NotADirectoryError):
        what, why = ("folder", _called(folder)) if not os.path.isdir(folder) else ("file", _called(name))
        said = f"There is no {what} {why}, so nothing can be {done}; check the name, {_EXAMPLE}"
    elif isinstance(error, PermissionError):
        said = (
            f"The file {_called(name)} can't be {done}, since this computer's permissions forbid it; "
            f"choose another place, {_EXAMPLE}"
        )
    else:
        reason = getattr(error, "strerror", None) or type(error).__name__
        said = f"The file {_called(name)} can't be {done} ({reason}); choose another place, {_EXAMPLE}"
    raise HemError(said, "path") from None


def _called(name: str) -> str:
    """The last part of a path, as a sentence may quote it."""
    return shown(os.path.basename(os.path.normpath(name)) or name)
