"""`python -m fitter`."""

from fitter.cli import main

if __name__ == "__main__":
    main()
