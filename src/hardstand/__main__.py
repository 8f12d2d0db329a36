"""`python -m hardstand`: the same as the command `hardstand`."""

from hardstand.cli import main

if __name__ == "__main__":
    main()
