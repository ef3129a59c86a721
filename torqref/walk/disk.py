"""What systems do differently with files: locks, and a folder that is synced. Nothing here knows journals."""

from __future__ import annotations

import errno
import os
from pathlib import Path
from typing import BinaryIO

# How a system says that a folder is nothing it can sync.
_NOT_SYNCED = (errno.EINVAL, errno.ENOTSUP, errno.EBADF)


def lock(file: BinaryIO) -> bool:
    """Lock an open file for this process; whether no other process has it.

    The system frees the lock with the process. Windows and some shared folders keep no such lock: there
    nothing is locked, and nothing in the way.
    """
    try:
        import fcntl
    except ImportError:
        return True
    try:
        fcntl.flock(file.fileno(), fcntl.LOCK_EX | fcntl.LOCK_NB)
    except (BlockingIOError, PermissionError):
        return False
    except OSError:
        return True
    return True


def sync_folder(folder: Path) -> None:
    """A new file is only safe when its folder is synced too; systems that cannot sync a folder do without.

    Raises:
        OSError: the disk failed.
    """
    try:
        handle = os.open(folder, os.O_RDONLY)
    except OSError:
        return  # Windows opens no folder, and a folder may be closed to all but writing
    try:
        os.fsync(handle)
    except OSError as error:
        if error.errno not in _NOT_SYNCED:
            raise
    finally:
        os.close(handle)


def write_all(file: BinaryIO, data: bytes) -> None:
    """An unbuffered write may take only a part: the rest is tried again, and a full disk then says so.

    Raises:
        OSError: not all of it could be written.
    """
    while data:
        data = data[file.write(data) :]
