# What a developer types. Everything works from a fresh clone with Go and, for
# `make deps`, apt-get; other systems are told which package to install.

GO          ?= go
BIN         := bin/mediabuy
FUZZTIME    ?= 10s
# No path of the folder goes into what is built, so that clones share what any of them has built.
export GOFLAGS := $(strip $(filter-out -trimpath,$(shell $(GO) env GOFLAGS 2>/dev/null)) -trimpath)
STATICCHECK_VERSION := v0.8.2
STATICCHECK := $(firstword $(shell command -v staticcheck 2>/dev/null) $(wildcard $(shell $(GO) env GOPATH 2>/dev/null)/bin/staticcheck))

# The solver is a C library, lp_solve 5.5.2, linked into the program (static on
# Linux), so it is needed to build and not to run.
APT_DEPS    := gcc libc6-dev liblpsolve55-dev libsuitesparse-dev
APT         := $(if $(filter 0,$(shell id -u)),,sudo )env DEBIAN_FRONTEND=noninteractive apt-get
ifeq ($(shell uname -s),Linux)
SOLVER_LIBS := -l:liblpsolve55.a -l:libcolamd.a -l:libsuitesparseconfig.a -lm -ldl
else
SOLVER_LIBS := -llpsolve55 -lcolamd -lm
endif
SOLVER_TEST  = printf '\#include <lpsolve/lp_lib.h>\nint main(void) { return make_lp(0, 0) == 0; }\n' | \
	cc -x c - -o "$$probe" $(SOLVER_LIBS)

VERSION     ?= $(shell git describe --tags --always 2>/dev/null || echo unreleased)
RELEASE     := bin/mediabuy-$(VERSION)
DEB_ARCH    := $(shell dpkg --print-architecture 2>/dev/null)
# A Debian version begins with a digit; a commit alone is put behind one.
DEB_VERSION := $(shell echo "$(VERSION)" | sed -e 's/^v//' -e '/^[0-9].*\./!s/^/0~/')

.PHONY: demo build test race nightly bench fuzz deps staticcheck cross release clean

## demo: build the program and run it on its sample job
demo: build
	$(BIN) demo

## build: bin/mediabuy
build: deps
	$(GO) build -o $(BIN) ./cmd/mediabuy

# go vet has looked at the tests before they run, and without what a debugger needs they are linked in half the time. The
# limit on a package is for what hangs, not for a machine that is busy with something else.
TESTFLAGS   := -vet=off -ldflags='-s -w' -timeout 40m
# A collector of garbage that comes less often takes a third of staticcheck's time away, and a tenth of that of many short commands.
test race: export GOGC := 400

# The rooms that start goroutines of their own or whose tests do, which the race detector looks at each time; a test
# holds the list against the sources. RACE_NIGHTLY is what make race looks at besides. LONG are those of RACE with tests that
# the race detector leaves out: the others need no second run without it.
RACE         := optimise/breakeven optimise/internal/lpsolve optimise/share web/internal/desk web/internal/folder
LONG         := optimise/breakeven optimise/share
# Tests that take longest begin first, so that none of them is left over at the end alone, and three packages run beside one another, as
# some of their tests wait for a browser.
FIRST        := quotes/message cmd/mediabuy papers optimise web
RACE_NIGHTLY := optimise/... web/... cmd/mediabuy/internal/overtake cmd/mediabuy/internal/terminal

## test: everything that must hold before a commit
test: deps
	@bad="$$(gofmt -l .)"; if [ -n "$$bad" ]; then echo "gofmt: not formatted, run gofmt -w on:" >&2; echo "$$bad" >&2; exit 1; fi
	$(GO) vet ./...
	@$(MAKE) --no-print-directory -j 2 checked raced

# What follows vet runs side by side, except that staticcheck comes before the tests: both need the tests compiled.
.PHONY: checked raced
checked:
	@if [ -n "$(STATICCHECK)" ]; then echo "staticcheck ./..."; "$(STATICCHECK)" ./...; \
	else echo "staticcheck: not installed, left out (make staticcheck installs it)" >&2; fi
	$(GO) test $(TESTFLAGS) -p 3 $(FIRST:%=./%) $(filter-out $(addprefix %/,$(filter-out $(LONG),$(RACE))),$(shell $(GO) list ./...))
raced:
	$(GO) test $(TESTFLAGS) -race $(RACE:%=./%)

## race: the race detector over all of the search and the page, each night with fuzz
race: deps
	$(GO) test $(TESTFLAGS) -race $(RACE_NIGHTLY:%=./%)

## nightly: every random job of the search's tests, of which make test goes through a share that is the same each time
nightly: deps
	NIGHTLY=1 $(GO) test $(TESTFLAGS:40m=60m) ./optimise/...

## bench: how fast it is, and a table beside two other solvers; nothing fails, it takes a quarter of an hour
bench: deps
	$(GO) test -run '^$$' -bench . -benchmem -timeout 60m ./...
	BENCH_TABLE=1 $(GO) test -run '^$$' -bench Table -benchtime 1x -timeout 60m ./optimise

## fuzz: each fuzz target for FUZZTIME, a line for each; the time counts from when the target runs, not from its build,
## and making what was found smaller, which by itself may take a minute each, takes little of it
fuzz: deps
	@tests="$$(mktemp -d)"; trap 'rm -rf "$$tests"' EXIT; root="$$(pwd)"; cache="$$($(GO) env GOCACHE)/fuzz"; failed=0; \
	for pkg in $$($(GO) list -f '{{if or .TestGoFiles .XTestGoFiles}}{{.ImportPath}}{{end}}' ./...); do \
		dir="$$($(GO) list -f '{{.Dir}}' "$$pkg")"; \
		grep -qs '^func Fuzz' "$$dir"/*_test.go || continue; \
		$(GO) test -c -fuzz=. -o "$$tests/bin" "$$pkg" || exit 1; \
		for target in $$(cd "$$dir" && "$$tests/bin" -test.list '^Fuzz'); do \
			if (cd "$$dir" && "$$tests/bin" -test.run '^$$' -test.fuzz "^$$target$$" -test.fuzztime $(FUZZTIME) -test.fuzzminimizetime 2s -test.fuzzcachedir "$$cache/$$pkg") >"$$tests/out" 2>&1; then \
				echo "ok    $$pkg $$target: $$(grep -o 'execs: [0-9]*' "$$tests/out" | tail -n 1), $(FUZZTIME)"; \
			else \
				failed=1; echo "FAIL  $$pkg $$target"; cat "$$tests/out"; \
			fi; \
		done; \
	done; exit $$failed

## cross: everything compiles for the other systems; without the C library, which has to be there where it solves
cross:
	@for t in windows/amd64 darwin/arm64 linux/amd64 linux/arm64; do \
		echo "cross $$t"; \
		CGO_ENABLED=0 GOOS=$${t%/*} GOARCH=$${t#*/} $(GO) build -o /dev/null ./... || exit 1; \
	done

## release: a stripped Linux binary with lp_solve linked in, and a .deb, both stamped with VERSION
release: deps
	$(GO) build -ldflags '-s -w -X main.version=$(VERSION)' -o $(RELEASE)/mediabuy ./cmd/mediabuy
	$(RELEASE)/mediabuy manual $(RELEASE)/man1
	cp LICENSE CHANGELOG.md $(RELEASE)/
	cp /usr/share/common-licenses/LGPL-2.1 $(RELEASE)/LGPL-2.1
	cp /usr/share/doc/liblpsolve55-dev/copyright $(RELEASE)/lp_solve.copyright
	rm -rf bin/deb && mkdir -p bin/deb/DEBIAN bin/deb/usr/bin bin/deb/usr/share/doc/mediabuy bin/deb/usr/share/man/man1
	cp $(RELEASE)/mediabuy bin/deb/usr/bin/
	cp $(RELEASE)/man1/*.1 bin/deb/usr/share/man/man1/ && gzip -9n bin/deb/usr/share/man/man1/*.1
	cp LICENSE CHANGELOG.md $(RELEASE)/LGPL-2.1 $(RELEASE)/lp_solve.copyright bin/deb/usr/share/doc/mediabuy/
	printf 'Package: mediabuy\nVersion: %s\nArchitecture: %s\nMaintainer: the mediabuy maintainers <maintainers@mediabuy.invalid>\nDepends: libc6\nSection: misc\nPriority: optional\nDescription: cheapest safe purchase of growing media for planting beds\n' \
		'$(DEB_VERSION)' '$(DEB_ARCH)' >bin/deb/DEBIAN/control
	dpkg-deb --root-owner-group --build bin/deb bin/mediabuy_$(DEB_VERSION)_$(DEB_ARCH).deb
	@echo "On macOS and Windows: install lp_solve 5.5.2 and SuiteSparse's colamd, then go build ./cmd/mediabuy (with -tags lpsolve_shared"
	@echo "where only shared libraries are to be had). Without the C library CGO_ENABLED=0 go build gives a program that reads and checks."

## deps: see that the C library is there, or install it
deps:
	@command -v $(GO) >/dev/null || { echo "go: not found, want the version in go.mod or later, from https://go.dev/dl" >&2; exit 1; }
	@probe="$$(mktemp)"; trap 'rm -f "$$probe"' EXIT; \
	if $(SOLVER_TEST) 2>/dev/null; then exit 0; fi; \
	if command -v apt-get >/dev/null; then \
		echo "lp_solve: not found, installing $(APT_DEPS)" >&2; \
		$(APT) update -q && $(APT) install -q -y --no-install-recommends $(APT_DEPS) && $(SOLVER_TEST); \
	else \
		echo "lp_solve: the C library does not compile and link here, and there is no apt-get to install it with" >&2; \
		echo "hint: install a C compiler, lp_solve 5.5.2 with its headers (Debian liblpsolve55-dev, Fedora lpsolve-devel, Homebrew lp_solve)" >&2; \
		echo "hint: and SuiteSparse's colamd (Debian libsuitesparse-dev, Fedora suitesparse-devel, Homebrew suite-sparse)" >&2; \
		echo "hint: where only shared libraries are to be had, build with: go build -tags lpsolve_shared ./cmd/mediabuy" >&2; \
		exit 1; \
	fi

## staticcheck: install the version the tests are run with
staticcheck:
	$(GO) install honnef.co/go/tools/cmd/staticcheck@$(STATICCHECK_VERSION)

clean:
	rm -rf bin
