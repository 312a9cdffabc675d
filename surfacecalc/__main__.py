"""Entry point: `surfacecalc` and `python -m surfacecalc`."""

import gc
import os
import sys

INTERRUPTED = 130
"""Exit code after Ctrl-C, as shells have it."""
OBJECTS_BEFORE_A_SEARCH = 100_000
"""New objects after which unused circles are searched for. Imports make so many objects that last
that Python's own 700 costs a tenth of a start and finds nothing."""


def main() -> None:
    """Run the command line; never show a traceback."""
    gc.set_threshold(OBJECTS_BEFORE_A_SEARCH)
    for stream in (sys.stdout, sys.stderr):
        if hasattr(stream, "reconfigure"):
            stream.reconfigure(errors="backslashreplace")
    try:
        from surfacecalc.commands import app  # Ctrl-C may come while this is still being read

        app()
    except BrokenPipeError:
        # Who reads the output has gone (`| head`); keep the interpreter from saying so at exit.
        os.dup2(os.open(os.devnull, os.O_WRONLY), sys.stdout.fileno())
        sys.exit(0)
    except KeyboardInterrupt:
        sys.exit(INTERRUPTED)
    except Exception as error:
        _report_bug(error)
        sys.exit(3)


def _report_bug(error: Exception) -> None:
    """Say that the fault is the program's, and how to see where."""
    if os.environ.get("SURFACECALC_DEBUG"):
        raise error
    print(
        f"surfacecalc: the program has a bug; your file is fine: {type(error).__name__}: {error}\n"
        "Please report it with the piece file; SURFACECALC_DEBUG=1 shows where it happened.",
        file=sys.stderr,
    )


if __name__ == "__main__":
    main()
