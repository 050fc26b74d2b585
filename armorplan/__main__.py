"""Where the program starts: ``python -m armorplan`` and the ``armorplan`` command."""

import sys

from armorplan.cli.program import run


def main() -> None:
    """Run the command line and leave with its exit code."""
    sys.exit(run(sys.argv[1:]))


if __name__ == "__main__":
    main()
