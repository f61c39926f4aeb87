# make run   sets everything up and serves the demo
# make test  sets everything up and passes everything, the browser tests included
# make bench  sets everything up, the libraries to compare with included, and measures (about ten minutes)
# All may be called again at any time; what is done already is not done twice.

PYTHON ?= python3
VENV := .venv
BIN := $(VENV)/bin
PIP := $(BIN)/pip install -qq --disable-pip-version-check

.PHONY: run test check bench browser clean
.DELETE_ON_ERROR:

run: $(VENV)/.run-stamp
	$(BIN)/proofbay serve --demo

test: $(VENV)/.test-stamp browser check
	$(BIN)/pytest -q -n auto --dist loadfile

check: $(VENV)/.test-stamp
	$(BIN)/ruff check .
	$(BIN)/ruff format --check .
	$(BIN)/mypy
	$(BIN)/lint-imports --no-cache
	$(BIN)/proofbay rules check

bench: $(VENV)/.test-stamp
	$(BIN)/proofbay bench

clean:
	rm -rf $(VENV) .pytest_cache .mypy_cache .ruff_cache .hypothesis test-results

$(BIN)/python:
	@$(PYTHON) -c 'import sys; sys.exit(sys.version_info < (3, 11))' || { echo "Python 3.11 or newer is needed."; exit 1; }
	@$(PYTHON) -c 'import ensurepip' 2>/dev/null || { \
	  if [ "$$(id -u)" = 0 ] && command -v apt-get >/dev/null; then \
	    apt-get update -qq && DEBIAN_FRONTEND=noninteractive apt-get install -y -qq --no-install-recommends python3-venv >/dev/null; \
	  else echo "Python's venv module is missing. On Debian: sudo apt install python3-venv"; exit 1; fi; }
	$(PYTHON) -m venv $(VENV)

$(VENV)/.run-stamp: pyproject.toml | $(BIN)/python
	$(PIP) -e .
	@touch $@

$(VENV)/.test-stamp: pyproject.toml | $(BIN)/python
	$(PIP) -e '.[test]'
	@touch $@ $(VENV)/.run-stamp

browser:
	@command -v chromium >/dev/null || { \
	  if [ "$$(id -u)" = 0 ] && command -v apt-get >/dev/null; then \
	    apt-get update -qq && DEBIAN_FRONTEND=noninteractive apt-get install -y -qq --no-install-recommends chromium fonts-dejavu-core >/dev/null; \
	  else echo "The browser tests need Chromium. On Debian: sudo apt install chromium fonts-dejavu-core"; exit 1; fi; }
