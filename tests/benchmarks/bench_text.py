"""How quick the commands are that load no kernel. Run: python -m tests.benchmarks.bench_text [pairs]."""

from __future__ import annotations

import sys

from tests.benchmarks.timing import against

MODULE = ("-m", "setupsheet")
BENCH = ("-c", "import click, csv, json")
BENCH_WITH_SHOP = ("-c", "import click, csv, json, yaml, jsonschema")
TEXT = ("-c", "import click, yaml, jsonschema")
SPEC, SHOP = "specs/worm-bracket.yaml", "specs/shop.yaml"

CASES = (
    ("check --text-only", ("check", "--text-only", SPEC), TEXT),
    ("fit", ("fit", "25 H7/g6", "--json"), BENCH),
    ("hole", ("hole", "10-32 UNF", "--json"), BENCH),
    ("circle", ("circle", "--pcd", "46", "--count", "6", "--json"), BENCH),
    ("speed", ("speed", "--diameter", "6", "--material", "aluminium 6082", "--json"), BENCH),
    ("hole with a shop", ("hole", "12 H7", "--shop", SHOP, "--json"), BENCH_WITH_SHOP),
    (
        "speed with a shop",
        ("speed", "--diameter", "6", "--material", "brass", "--shop", SHOP, "--json"),
        BENCH_WITH_SHOP,
    ),
)
AIM = 2.0


def bench(pairs: int) -> None:
    """Print one line a command."""
    for title, words, floor in CASES:
        against(title, (*MODULE, *words), floor, AIM, pairs)


if __name__ == "__main__":
    bench(int(sys.argv[1]) if len(sys.argv) > 1 else 15)
