"""`python -m bot` is the same program as `cagewright`."""

from bot.cli import main

if __name__ == "__main__":
    main()
