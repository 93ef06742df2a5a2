"""A worker that is ended by the system on one frame, as one is that runs out of memory there."""

import os
import signal

from ui.table.worker import decide_chunk

DEADLY = 1


def decide_or_die(shared: str, chunk: str) -> str:
    if f'"case-{DEADLY}"' in chunk:
        os.kill(os.getpid(), signal.SIGKILL)
    return decide_chunk(shared, chunk)
