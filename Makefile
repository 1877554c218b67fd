# make sweater   a virtual environment, and the example's sheet as HTML and PDF
# make test      the tests: the published checks, the laws, every kind of sweater once
# make deep      all tests, each law in full: thousands of bodies, hostile files, kills
# make page      the page in a browser: accessible, valid, by keyboard, under its policy, printed
# make check     style, types, the direction of imports
# make proof     write the page of checks against published numbers
# make bench     how quick it is, in ratios
# make wheel     build the wheel and try it outside this folder
# make newcomers  both commands of the README in a fresh clone, without rights, network or compiler
# make hostile   hostile files and words, kills at random: other ones every time
# make fuzz      whatever can be typed, for FUZZ_SECONDS; guided by coverage where that can be
# make covered   every branch of the rooms that have come so far
# make mutants   small changes in a ROOM that its tests must notice
# make clean     take away what these made
#
# Needs Python 3.11 or later. Works with GNU make 3.81 and in a path with spaces.

SHELL = /bin/sh
VENV = .venv
PYTHON = $(VENV)/bin/python
PIP = $(PYTHON) -m pip --disable-pip-version-check
EXAMPLE = warm-evenings
OUT = examples/out
FUZZ_SECONDS = 300
FUZZ_RUNS =
ROOM = notation
SOURCES = $(shell find src templates sizing_tables -type f ! -name '*.pyc')

.PHONY: sweater test deep page check proof bench wheel newcomers hostile fuzz covered mutants clean

sweater: $(OUT)/$(EXAMPLE).html $(OUT)/$(EXAMPLE).pdf
	@echo "The sheet of the example $(EXAMPLE):"
	@echo "  to tick, in a browser:  $(OUT)/$(EXAMPLE).html"
	@echo "  to print:               $(OUT)/$(EXAMPLE).pdf"
	@echo "Your own sweater:         $(VENV)/bin/yokefellow begin mine.toml"

# Two files, two recipes: one recipe for both needs a later make than macOS has.
$(OUT)/$(EXAMPLE).html: examples/$(EXAMPLE).toml $(SOURCES) $(VENV)/.ready
	$(PYTHON) -m yokefellow sheet examples/$(EXAMPLE).toml --into $(OUT) --as html

$(OUT)/$(EXAMPLE).pdf: examples/$(EXAMPLE).toml $(SOURCES) $(VENV)/.ready
	@sh .ci/libraries sheet $(PYTHON)
	$(PYTHON) -m yokefellow sheet examples/$(EXAMPLE).toml --into $(OUT) --as pdf

# The stamps say which of the project's needs are installed, and are renewed
# when pyproject.toml changes.
$(VENV)/.ready: pyproject.toml .ci/environment
	@sh .ci/environment $(VENV)
	$(PIP) install --quiet --editable .
	@touch $(VENV)/.ready

$(VENV)/.test: $(VENV)/.ready
	$(PIP) install --quiet --editable ".[test]"
	@touch $(VENV)/.test

$(VENV)/.check: $(VENV)/.test
	$(PIP) install --quiet --editable ".[test,check]"
	@touch $(VENV)/.check

$(VENV)/.fuzz: $(VENV)/.test
	$(PIP) install --quiet --editable ".[test,fuzz]"
	@touch $(VENV)/.fuzz

$(VENV)/.mutants: $(VENV)/.test
	$(PIP) install --quiet --editable ".[test,mutation]"
	@touch $(VENV)/.mutants

test: $(VENV)/.test
	@sh .ci/libraries sheet $(PYTHON)
	@sh .ci/libraries tests $(PYTHON)
	$(PYTHON) -m pytest -n auto --dist worksteal -m "not deep" --ignore tests/browser

deep: $(VENV)/.test
	@sh .ci/libraries sheet $(PYTHON)
	@sh .ci/libraries tests $(PYTHON)
	YOKEFELLOW_DEEP=1 $(PYTHON) -m pytest -n auto --dist worksteal --ignore tests/browser

# Apart from the others, as a browser takes its time and node its place.
page: $(VENV)/.test
	@sh .ci/libraries sheet $(PYTHON)
	@sh .ci/libraries tests $(PYTHON)
	@sh .ci/page-tools .tool/page
	$(PYTHON) -m pytest -n auto --dist worksteal tests/browser

check: $(VENV)/.check
	$(PYTHON) -m ruff check .
	$(PYTHON) -m ruff format --check .
	$(PYTHON) -m mypy
	$(VENV)/bin/lint-imports

proof: $(VENV)/.test
	$(PYTHON) -m tests.published.page

bench: $(VENV)/.test
	@sh .ci/libraries sheet $(PYTHON)
	$(PYTHON) -m tests.benchmarks.bench

wheel: $(VENV)/.ready
	@sh .ci/libraries sheet $(PYTHON)
	@sh .ci/wheel $(PYTHON) examples/*.toml

newcomers:
	@sh .ci/newcomers

hostile: $(VENV)/.test
	@sh .ci/libraries sheet $(PYTHON)
	YOKEFELLOW_SEED=$$(date +%s) $(PYTHON) -m pytest -q tests/hostile tests/newcomers

# What it found worth keeping stays in build/fuzz, and the next run goes on from there;
# `make fuzz FUZZ_RUNS=150` types so many files from the beginning, the same in every run.
fuzz: $(VENV)/.fuzz
	$(PYTHON) -m tests.hostile.fuzzing $(if $(FUZZ_RUNS),--runs $(FUZZ_RUNS),$(FUZZ_SECONDS)) build/fuzz

# Every branch of the rooms that have come so far, by the tests of each room alone.
covered: $(VENV)/.mutants
	$(PYTHON) -m tests.mutation.covered

# Small changes in the program that the tests must notice: `make mutants ROOM=notation`.
mutants: $(VENV)/.mutants
	$(PYTHON) -m tests.mutation.run $(ROOM)

clean:
	rm -rf $(VENV) $(OUT) build dist .mypy_cache .pytest_cache .ruff_cache
	rm -rf .hypothesis .import_linter_cache .tool/page
	find src tests -name __pycache__ -type d -prune -exec rm -rf {} +
