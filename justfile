# List the recipes.
default:
    @just --list

# Everything CI runs, in the order that fails fastest.
check: lint types layers
    pytest --numprocesses auto --dist loadgroup

lint:
    ruff format --check
    ruff check

types:
    mypy

layers:
    lint-imports

test *args:
    pytest {{args}}

# Accept what the program makes now; read the diff before committing it.
approve:
    pytest --numprocesses auto --approve
    git diff --stat -- tests/golden

# Measure speed; prints medians and names the machine.
bench:
    python bench/speed.py

# Repair what can be repaired.
fix:
    ruff check --fix
    ruff format
