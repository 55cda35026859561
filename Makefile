# The commands of this tree. `make demo` and `make test` need nothing before them but Debian's python3, python3-venv,
# make and git; both lay what they need inside this folder and lay it once (.ci/set-up says how).
#
#   make demo        the demo firm, served on 127.0.0.1   (PORT=8765 DATA=demo-data NOW=2026-11-25T09:00:00+00:00)
#   make demo-reset  the same, starting over: what was entered before is thrown away
#   make serve       a desk of your own                    (PORT=8765 DATA=data; docs/ says how to set one up)
#   make backup TO=FILE      the whole desk into one file, also while it is served   (DATA=data)
#   make restore FROM=FILE   a desk out of a backup, into an empty folder            (DATA=data)
#   make check-book FILE=demo/skerry.book    all that is wrong with a rule book, or its counts
#   make test        everything that is checked            (ARGS="-k paper": only the tests that match)
#   make fuzz        look for a question that the engine answers wrongly, until told to stop   (SECONDS=3600 SEED=7)
#   make mutants     small faults put into the engine: how many of them the tests notice   (build/mutants; SEED=1 MINUTES=55)
#   make fuzz-api    requests made up from the interface's own document, many of them
#   make screenshots the docs' pictures, from the running demo (docs/pictures)
#   make bench       what things take, against a yardstick measured in the same run   (build/bench.json)
#   make lock        choose the versions of all packages anew (.ci/requirements/*.in, frontend/package.json)

.DEFAULT_GOAL := help
.PHONY: help demo demo-reset serve backup restore check-book test fuzz mutants bench fuzz-api screenshots lock
# Packages are laid uncompiled and compiled at their first import; a setting that forbids keeping the result would make
# every later start slow.
unexport PYTHONDONTWRITEBYTECODE

PYTHON_HERE := .venv/bin/python

# What was given on the command line or in the environment, handed on only where it was given.
WHERE := $(if $(PORT),--port '$(PORT)') $(if $(DATA),--data '$(DATA)') $(if $(NOW),--now '$(NOW)')

help:
	@sed -n 's/^#   //p' Makefile

# exec: Ctrl-C reaches the server itself, and no shell stands between to complain.
demo:
	@.ci/set-up product
	@exec $(PYTHON_HERE) -m app demo $(WHERE)

demo-reset:
	@.ci/set-up product
	@exec $(PYTHON_HERE) -m app demo --reset $(WHERE)

serve:
	@.ci/set-up product
	@exec $(PYTHON_HERE) -m app serve $(if $(PORT),--port '$(PORT)') $(if $(DATA),--data '$(DATA)')

backup:
	@.ci/set-up product
	@$(if $(TO),exec $(PYTHON_HERE) -m app backup '$(TO)' $(if $(DATA),--data '$(DATA)'),echo 'Where to? make backup TO=/some/where/desk.tar.gz' >&2; exit 2)

restore:
	@.ci/set-up product
	@$(if $(FROM),exec $(PYTHON_HERE) -m app restore '$(FROM)' $(if $(DATA),--data '$(DATA)'),echo 'What from? make restore FROM=/some/where/desk.tar.gz' >&2; exit 2)

check-book:
	@.ci/set-up product
	@$(if $(FILE),exec $(PYTHON_HERE) -m app check-book '$(FILE)',echo 'Which book? make check-book FILE=demo/skerry.book' >&2; exit 2)

# With ARGS: pytest alone, in one process, so that `-x`, `--pdb` and `-s` do what they promise.
test:
	@.ci/set-up tests
	@.ci/check $(ARGS)

# Random rule books and walks over them, against a list of all shells and a SAT solver. What it finds belongs into a test.
fuzz:
	@.ci/set-up tests
	@exec $(PYTHON_HERE) -m tests.fuzz $(if $(SECONDS),--seconds '$(SECONDS)') $(if $(SEED),--seed '$(SEED)') $(ARGS)

# A seeded sample of mutants; goes on where it was stopped. What survives is killed by a test or explained (docs/measurements.md).
mutants:
	@.ci/set-up mutants
	@exec nice $(PYTHON_HERE) -m tests.mutants $(if $(MINUTES),--minutes '$(MINUTES)') $(if $(SEED),--seed '$(SEED)') $(ARGS)

fuzz-api:
	@.ci/set-up tests
	@DEEP=1 exec $(PYTHON_HERE) -m pytest -q -x tests/web/test_schemathesis.py

screenshots:
	@.ci/set-up tests
	@exec $(PYTHON_HERE) .ci/screenshots

# What things take, against python-sat, a bare route and bare reportlab in the same run: a table, and build/bench.json.
bench:
	@.ci/set-up tests
	@exec $(PYTHON_HERE) -m tests.bench $(ARGS)

lock:
	@.ci/set-up tests
	@.ci/lock
