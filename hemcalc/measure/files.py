"""Files read with care and written whole: what stands on the disk is the old or the new, never half.

A file is written beside its place under a passing name, and takes the place only when all of
it is on the disk. Nothing that is there already is written over unasked.
"""

from __future__ import annotations

import errno
import os
import re
import secrets
import stat
import sys
import time
from collections.abc import Iterator
from contextlib import contextmanager, suppress
from typing import NoReturn

from hemcalc.measure.errors import HemError, shown, true_or_false

_EXAMPLE = "for example 'bread_cloth.json'."
_PASSED = 60  # seconds after which a passing file is nobody's: to write one takes a moment
_WAIT = 1  # seconds that one waits for another who holds the folder


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

    With `replace` a file that is there already may be written over. A link is followed, and the file that it
    leads to replaced, with the permissions that it had. Refused if there is such a file and `replace` is not
    True, or it can't be written.
    """
    name = file_name(path)
    try:
        put_file(name, content, replace=true_or_false(replace, "replace"))
    except FileExistsError:
        raise HemError(
            f"There is a file {_called(name)} already, and nothing is written over unasked; choose another "
            "name, or say replace=True to replace it.",
            "path",
        ) from None
    except (OSError, ValueError) as error:
        _refuse(name, "written", error)


def put_file(name: str | os.PathLike[str], content: bytes, *, replace: bool) -> None:
    """As `write_file`, for who says in a sentence of her own what is wrong: it raises an OSError.

    What a program that was killed has left of its passing files is cleared away after a minute.
    """
    place = os.path.realpath(name)
    folder = os.path.dirname(place)
    if os.path.isdir(place) or not os.path.basename(name):
        raise IsADirectoryError(errno.EISDIR, "it is a folder")
    if not replace and os.path.lexists(name):
        raise FileExistsError(errno.EEXIST, "it is there already")
    mode = _mode_of(place) if replace else None
    _clear(folder)
    passing = os.path.join(folder, f".{secrets.token_hex(8)}.hemcalc")
    try:
        _write_down(passing, content, mode)
        if replace:
            os.replace(passing, place)
        else:
            _take(passing, place)
        _keep_the_folder(folder)
    finally:
        with suppress(OSError):
            os.unlink(passing)


@contextmanager
def alone(path: object) -> Iterator[None]:
    """Hold the folder of a file that is read, added to and written: what another adds is not lost.

    Who comes second waits, but for a second at most. Windows has no lock on a folder.
    """
    held = None
    if sys.platform != "win32":
        import fcntl

        with suppress(OSError, ValueError):
            held = os.open(os.path.dirname(os.path.realpath(file_name(path))), os.O_RDONLY)
            until = time.monotonic() + _WAIT
            while time.monotonic() < until:
                with suppress(BlockingIOError):
                    fcntl.flock(held, fcntl.LOCK_EX | fcntl.LOCK_NB)
                    break
                time.sleep(0.01)
    try:
        yield
    finally:
        if held is not None:
            os.close(held)


def is_passing(name: str) -> bool:
    """Whether a file's name is one under which a file is written before it takes its place.

    Examples
    --------
    >>> is_passing(".0123456789abcdef.hemcalc"), is_passing("bread_cloth.json")
    (True, False)
    """
    return re.fullmatch(r"\.[0-9a-f]{16}\.hemcalc", name) is not None


def _clear(folder: str) -> None:
    """Take away passing files that nobody can be writing any more."""
    with suppress(OSError), os.scandir(folder) as there:
        for each in there:
            if is_passing(each.name) and each.stat(follow_symlinks=False).st_mtime < time.time() - _PASSED:
                os.unlink(each)


def _mode_of(place: str) -> int | None:
    """Permissions of the file that is to be replaced; None if there is none."""
    try:
        there = os.stat(place)
    except FileNotFoundError:
        return None
    if not stat.S_ISREG(there.st_mode):
        raise IsADirectoryError(errno.EISDIR, "it is no ordinary file")
    if not os.access(place, os.W_OK):
        raise PermissionError(errno.EACCES, os.strerror(errno.EACCES))
    return stat.S_IMODE(there.st_mode)


def _take(passing: str, place: str) -> None:
    """Give the file its name in one go, unless somebody else has taken that meanwhile."""
    try:
        os.link(passing, place)
    except FileExistsError:
        raise
    except OSError:  # a stick or a share that knows no links
        if os.path.lexists(place):
            raise FileExistsError(errno.EEXIST, "it is there already") from None
        os.rename(passing, place)


def _write_down(place: str, content: bytes, mode: int | None) -> None:
    with open(place, "xb") as file:
        if mode is not None:
            os.chmod(place, mode)
        file.write(content)
        file.flush()
        os.fsync(file.fileno())


def _keep_the_folder(folder: str) -> None:
    """Have the new name itself on the disk, where the system can do that for a folder."""
    with suppress(OSError):
        held = os.open(folder, os.O_RDONLY)
        try:
            os.fsync(held)
        finally:
            os.close(held)


def _refuse_what_is_no_file(name: str) -> NoReturn:
    what = "a folder" if os.path.isdir(name) or not os.path.basename(name) else "no ordinary file"
    raise HemError(f"{_called(name)} is {what}, but a file is wanted; {_EXAMPLE}", "path")


def _refuse(name: str, done: str, error: Exception) -> NoReturn:
    if isinstance(error, HemError):
        raise error
    if isinstance(error, IsADirectoryError):
        _refuse_what_is_no_file(name)
    folder = os.path.dirname(name) or "."
    if isinstance(error, FileNotFoundError | NotADirectoryError):
        what, why = ("folder", _called(folder)) if not os.path.isdir(folder) else ("file", _called(name))
        said = f"There is no {what} {why}, so nothing can be {done}; check the name, {_EXAMPLE}"
    elif isinstance(error, PermissionError):
        said = (
            f"The file {_called(name)} can't be {done}, since this computer's permissions forbid it, or "
            f"another program has it open; choose another place, {_EXAMPLE}"
        )
    else:
        reason = getattr(error, "strerror", None) or "this computer can't have such a name"
        said = f"The file {_called(name)} can't be {done} ({reason}); choose another place, {_EXAMPLE}"
    raise HemError(said, "path") from None


def _called(name: str) -> str:
    """The last part of a path, as a sentence may quote it."""
    return shown(os.path.basename(os.path.normpath(name)) or name)
