# What can be made here? `make` alone lists it. Nothing is needed but Python 3.11 or later and make.

PYTHON ?= python3
VENV   := .venv
BIN    := $(VENV)/bin

# The theme's notice about its own future is no problem of this site.
export NO_MKDOCS_2_WARNING := 1

.DEFAULT_GOAL := help
.PHONY: help demo serve test check fuzz bench looks package validation clean

help:
	@echo "make demo        build the demo handbook and say where to open it"
	@echo "make serve       show it live while you write"
	@echo "make test        run every test; FAST=1: those of the rooms that you have touched"
	@echo "make check       style and types"
	@echo "make looks       does each kind of page look as it was approved; APPROVE=1 writes the pictures anew"
	@echo "make validation  compare every calculation with published values, as a table"
	@echo "make fuzz        a long search for files and formulas that break something"
	@echo "make bench       how fast is it, against plain pages in the same run"
	@echo "make package     build wheel and sdist, and try them from an empty folder, on each Python, with the lowest versions too"
	@echo "make clean       take away what was made, but not $(VENV)"

demo: $(VENV)/.ready-demo
	$(BIN)/mkdocs build --strict
	@echo
	@echo "The demo handbook is ready. Open this file in a browser:"
	@echo "    $(CURDIR)/site/index.html"
	@echo "To see it live while you write: make serve"

serve: $(VENV)/.ready-demo
	$(BIN)/mkdocs serve --livereload

# FAST=1 runs the tests of the rooms that you have touched, without a browser.
TOUCHED = $(wildcard $(addprefix tests/,$(sort $(shell git status --porcelain | \
  sed -nE 's,^...(plugin/methodsheets|tests)/([a-z]+)/.*,\2,p; s,^...figures/.*,figures,p'))))

test: $(VENV)/.ready-test
	$(BIN)/python -m pytest --numprocesses auto --dist loadfile $(if $(FAST),-m "not browser" $(TOUCHED))

check: $(VENV)/.ready-test
	$(BIN)/ruff check plugin figures tests
	$(BIN)/ruff format --check --quiet plugin figures tests
	$(BIN)/mypy

fuzz: $(VENV)/.ready-test
	$(BIN)/python tests/fuzz/long.py all $${FUZZ_CASES:-10000} $${FUZZ_SEED:-0}

validation: $(VENV)/.ready-test
	METHODSHEETS_VALIDATION=1 $(BIN)/python -m pytest tests/validation

bench: $(VENV)/.ready-test
	$(BIN)/python tests/bench/bench.py
	$(BIN)/python tests/bench/limits.py
	$(BIN)/python -m tests.drawings.random_methods

looks: $(VENV)/.ready-test
	$(BIN)/python tests/bench/looks.py $(if $(APPROVE),--approve)

package: $(VENV)/.ready-test
	$(BIN)/python tests/bench/package.py

clean:
	rm -rf site .cache build dist .pytest_cache .mypy_cache .ruff_cache .hypothesis *.egg-info

$(VENV)/bin/pip:
	@$(PYTHON) -c 'import sys; sys.exit(sys.version_info < (3, 11))' || \
	  { echo "Python 3.11 or later is needed; name it with: make PYTHON=/path/to/python3"; exit 1; }
	@$(PYTHON) -m venv $(VENV) || \
	  { rm -rf $(VENV); echo "Python cannot make a virtual environment; on Debian: apt install python3-venv"; exit 1; }

$(VENV)/.ready-demo: pyproject.toml | $(VENV)/bin/pip
	$(BIN)/pip install --quiet --disable-pip-version-check --editable '.[theme]'
	@touch $@

$(VENV)/.ready-test: pyproject.toml | $(VENV)/bin/pip
	$(BIN)/pip install --quiet --disable-pip-version-check --editable '.[theme,test,check]'
	@touch $@ $(VENV)/.ready-demo
