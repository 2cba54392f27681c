# Two commands: `make run` and `make test`. What they need on the machine is in .ci/ready.
PORT ?= 8000
VENV ?= .venv
PYTHON_IN := $(VENV)/bin/python
export PORT VENV

.PHONY: run test bench lint lock backup

run: ## the demo shop on http://localhost:$(PORT); FRESH=1 starts anew
	@.ci/ready run
	@$(if $(filter 1,$(FRESH)),rm -rf var,:)
	@DEMO=1 exec $(PYTHON_IN) manage.py serve --prepare

test: ## every lane; LANES="lint sqlite" for some of them
	@.ci/ready test
	@$(PYTHON_IN) .ci/lanes.py $(LANES)

bench: ## against other ways to the same result, into docs/benchmarks.md; BENCH=tests/benchmarks/bench_flight.py for one
	@.ci/ready test
	@$(PYTHON_IN) -m pytest -q -p no:randomly -p no:xdist -o python_files='bench_*.py' $(or $(BENCH),tests/benchmarks)

lint:
	@.ci/ready test
	@$(PYTHON_IN) .ci/lanes.py lint

lock: ## both lock files, for every system and Python we allow; they name no host
	@[ -x $(VENV)/bin/uv ] || $(PYTHON_IN) -m pip install -q uv
	$(VENV)/bin/uv pip compile pyproject.toml --universal --python-version 3.11 --generate-hashes \
		--no-header --no-annotate --no-emit-index-url --no-emit-find-links -q -o requirements.txt
	$(VENV)/bin/uv pip compile pyproject.toml --group test --group lint -c requirements.txt \
		--universal --python-version 3.11 --generate-hashes \
		--no-header --no-annotate --no-emit-index-url --no-emit-find-links -q -o requirements-test.txt

backup:
	@$(PYTHON_IN) manage.py backup
