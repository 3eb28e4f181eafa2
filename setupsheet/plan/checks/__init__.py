"""Checks before cutting: one rule a file, each with what it looks at, why at the machine, what to do, source."""
