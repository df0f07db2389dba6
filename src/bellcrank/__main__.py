"""Lets ``python -m bellcrank`` do what ``bellcrank`` does."""

from bellcrank.cli.main import main

if __name__ == "__main__":
    main()
