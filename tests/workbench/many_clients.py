"""Fifty clients that edit at once: `python -m tests.workbench.many_clients 60` (seconds)."""

from __future__ import annotations

import sys
import tempfile
from pathlib import Path

from tests.workbench.robust.clients_run import run


def main() -> int:
    """Let them edit; prints what came of it; 1 where an edit was lost."""
    seconds = float(sys.argv[1]) if len(sys.argv) > 1 else 60.0
    with tempfile.TemporaryDirectory() as folder:
        edits = run(50, seconds, Path(folder))
    told = f"accepted {len(edits.accepted)}, stale {edits.stale}, faults {len(edits.faults)}"
    print("\n".join([told, *edits.faults[:20]]))  # noqa: T201 it is a script
    return 1 if edits.faults else 0


if __name__ == "__main__":
    sys.exit(main())
