PYTHON ?= python3
UV_VERSION := 0.13.9
UV := .tools/bin/uv
VENV := .venv
BIN := $(VENV)/bin
OUT ?= out

.DEFAULT_GOAL := help
.PHONY: help run demo test check bench calibrate slips shop-study load big-store crash oracle spark \
        fuzz audit sbom docs lock clean

help: ## Say what there is to do
	@grep -E '^[a-z-]+:.*##' $(MAKEFILE_LIST) | sed -E 's/:[^#]*## /\t/' | expand -t 12

run: $(VENV)/.run $(VENV)/.kernels ## Open the demo studio in the browser: a fitting in progress and a finished one
	@$(BIN)/loftwright serve --demo

demo: $(VENV)/.run $(VENV)/.kernels ## Carry an invented fitting from its shots to the decision and the printed pages
	@$(BIN)/loftwright demo --out $(OUT)

test: $(VENV)/.test $(VENV)/.kernels ## Run every test, the published checks and the seeded studies among them
	@scripts/test

check: $(VENV)/.test ## Check format, lint, types, floors and spelling
	@scripts/check

bench: $(VENV)/.test $(VENV)/.kernels ## Measure speed: trajectories per second, time of an update
	@$(BIN)/python -m bench

calibrate: $(VENV)/.test $(VENV)/.kernels ## Run the large truth study and write docs/truth (resumes where it stopped)
	@$(BIN)/python scripts/calibrate.py

slips: $(VENV)/.test $(VENV)/.kernels ## Try slips of bench readings again and write docs/truth/bench.md (resumes where it stopped)
	@PYTHONPATH=tests $(BIN)/python scripts/slips.py

shop-study: $(VENV)/.test $(VENV)/.kernels ## Learn from simulated shops and write docs/truth/shop_record.md (resumes where it stopped)
	@$(BIN)/python scripts/shop_study.py

ENGINE ?= postgresql

load: $(VENV)/.test $(VENV)/.kernels ## Let six bays work for an hour (MINUTES, ENGINE=sqlite) and write docs/truth/load.md
	@PYTHONPATH=tests $(BIN)/python scripts/load.py --minutes $(or $(MINUTES),60) --engine $(ENGINE)

big-store: $(VENV)/.test $(VENV)/.kernels ## Time the pages of a store with 20,000 fittings and write docs/truth/big_store.md
	@PYTHONPATH=tests $(BIN)/python scripts/big_store.py

crash: $(VENV)/.test ## Kill the studio while it works, ROUNDS times over, and write docs/truth/crash.md (goes on where it stopped)
	@PYTHONPATH=tests $(BIN)/python scripts/crash.py --rounds $(or $(ROUNDS),10)

oracle: .oracle/.run ## Sample the comparison's equations and write the figures that it is held against
	@PYTHONPATH=tests .oracle/bin/python scripts/oracle.py

spark: .spark/.test ## Sum the shop record by Spark too, and hold it against DuckDB; needs Java
	@command -v java >/dev/null || \
	  { echo "Java is missing. On Debian: apt-get install --no-install-recommends openjdk-17-jre-headless"; exit 1; }
	@OPENBLAS_NUM_THREADS=1 .spark/bin/python -m pytest -q -s tests/spark

fuzz: .fuzz/.run ## Feed broken input to every reader (MINUTES=1 each; resumes) and write docs/truth/fuzz.md
	@OPENBLAS_NUM_THREADS=1 PYTHONPATH=tests .fuzz/bin/python scripts/fuzz.py --minutes $(or $(MINUTES),1)

audit: .audit/.run ## Hold every locked package against the known vulnerabilities; fails where it cannot
	@.audit/bin/python scripts/audit.py run test docs

sbom: $(VENV)/.run .audit/.run ## Write the bill of materials of what runs, and hold it against its standard's schema
	@$(BIN)/python scripts/sbom.py $(OUT)/sbom.cdx.json --every-licence
	@.audit/bin/python scripts/sbom_check.py $(OUT)/sbom.cdx.json

docs: $(VENV)/.docs ## Build the documentation, warnings as errors
	@$(BIN)/sphinx-build -W --keep-going -q -b html docs docs/_build/html
	@echo "docs/_build/html/index.html"

lock: $(UV) ## Pin every dependency again
	@for group in run test docs oracle spark fuzz audit; do \
	  scripts/lock $$group; \
	done

clean: ## Remove what the other targets made
	rm -rf .tools $(VENV) .oracle .spark .fuzz .audit .cache docs/_build $(OUT)

$(UV):
	@$(PYTHON) -c 'import sys; sys.exit(sys.version_info < (3, 11))' || \
	  { echo "Loftwright needs Python 3.11 or newer; $(PYTHON) is older. Try: make PYTHON=python3.12 ..."; exit 1; }
	@$(PYTHON) -m venv .tools >/dev/null || \
	  { rm -rf .tools; echo "python3-venv is missing. On Debian: apt-get install python3-venv"; exit 1; }
	@.tools/bin/python -m pip install --quiet --disable-pip-version-check uv==$(UV_VERSION)

$(VENV)/bin/python: | $(UV)
	@$(UV) venv --quiet --python $(PYTHON) $(VENV)

$(VENV)/.run: locks/run.txt pyproject.toml | $(VENV)/bin/python
	@$(UV) pip sync --quiet --python $(BIN)/python --require-hashes locks/run.txt
	@$(UV) pip install --quiet --python $(BIN)/python --no-deps --no-build-isolation --editable .
	@$(BIN)/python scripts/sbom.py $(VENV)/sbom.cdx.json >/dev/null
	@touch $@

$(VENV)/.test: locks/test.txt pyproject.toml | $(VENV)/bin/python
	@$(UV) pip sync --quiet --python $(BIN)/python --require-hashes locks/test.txt
	@$(UV) pip install --quiet --python $(BIN)/python --no-deps --no-build-isolation --editable .
	@$(BIN)/python scripts/sbom.py $(VENV)/sbom.cdx.json >/dev/null
	@touch $(VENV)/.run $@

$(VENV)/.docs: locks/docs.txt pyproject.toml | $(VENV)/bin/python
	@$(UV) pip install --quiet --python $(BIN)/python --require-hashes --requirements locks/docs.txt
	@$(UV) pip install --quiet --python $(BIN)/python --no-deps --no-build-isolation --editable .
	@touch $@

# The sampler has an environment of its own: nothing that a test imports depends on it.
.oracle/.run: locks/oracle.txt pyproject.toml | $(UV)
	@$(UV) venv --quiet --allow-existing --python $(PYTHON) .oracle
	@$(UV) pip sync --quiet --python .oracle/bin/python --require-hashes locks/oracle.txt
	@$(UV) pip install --quiet --python .oracle/bin/python --no-deps --no-build-isolation --editable .
	@touch $@

# The audit has an environment of its own: what it needs is not in what it looks at.
.audit/.run: locks/audit.txt | $(UV)
	@$(UV) venv --quiet --allow-existing --python $(PYTHON) .audit
	@$(UV) pip sync --quiet --python .audit/bin/python --require-hashes locks/audit.txt
	@touch $@

# Spark has an environment of its own: no other test runs differently because of it.
.spark/.test: locks/spark.txt pyproject.toml | $(UV)
	@$(UV) venv --quiet --allow-existing --python $(PYTHON) .spark
	@$(UV) pip sync --quiet --python .spark/bin/python --require-hashes locks/spark.txt
	@$(UV) pip install --quiet --python .spark/bin/python --no-deps --no-build-isolation --editable .
	@touch $@

# The fuzzer has an environment of its own: it follows every branch and is no part of a test.
.fuzz/.run: locks/fuzz.txt pyproject.toml | $(UV)
	@$(UV) venv --quiet --allow-existing --python $(PYTHON) .fuzz
	@$(UV) pip sync --quiet --python .fuzz/bin/python --require-hashes locks/fuzz.txt
	@$(UV) pip install --quiet --python .fuzz/bin/python --no-deps --no-build-isolation --editable .
	@touch $@

# Compiled loops are cached beside their own file and do not notice a formula that changed
# elsewhere, so any change of the physics clears them.
$(VENV)/.kernels: $(wildcard src/loftwright/physics/*.py src/loftwright/physics/*/*.py) | $(VENV)/bin/python
	@find src/loftwright/physics -name '*.nb[ic]' -delete
	@touch $@
