"""``python -m haywisp`` is the command line."""

from haywisp.cli import main

if __name__ == "__main__":
    main()
