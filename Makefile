# Parewell: every verb there is. `make help` lists them.
# One set of build tags everywhere, so that nothing is compiled twice:
# migrated_fynedo: all touches of the window go through fyne.Do (no checks at run time)
# no_emoji:        leaves out a 10 MB colour font that no recipe needs
# Tests and the headless program add nowindow, which touches cmd/parewell alone
# and spares them the graphics libraries.
TAGS     := migrated_fynedo,no_emoji
HEADLESS := $(TAGS),nowindow
# -buildvcs=false: building needs no repository and no owner of one.
GO       := go
BUILD    := $(GO) build -buildvcs=false -trimpath -ldflags '-s -w'
TOOL     := $(GO) tool -modfile=.ci/tools/go.mod
REALWINDOW = $(GO) test -buildvcs=false -count=1 -timeout 20m -tags '$(HEADLESS),realwindow' -v ./cmd/parewell
FUZZTIME ?= 5s
KILLS    ?= 30
SOAK     ?= 20000
FILE     ?=
export CGO_ENABLED := 1
export TAGS HEADLESS FUZZTIME

.DEFAULT_GOAL := build
.PHONY: help build headless run test golden race check fmt fuzz kills bench look shots guide window-test package package-test soak soak-window long ci clean

help: ## this list
	@awk -F ':.*## ' '/^[a-z-]+:.*## / {printf "  make %-12s %s\n", $$1, $$2}' $(MAKEFILE_LIST)
	@echo "  settings: FILE=book.parewell (run), FUZZTIME=$(FUZZTIME) a reader (fuzz), KILLS=$(KILLS) (kills), SOAK=$(SOAK) (soak)"

build: ## build the program: bin/parewell
	@.ci/setup window
	$(BUILD) -tags '$(TAGS)' -o bin/parewell ./cmd/parewell

headless: ## build the commands without the window: bin/parewell-headless
	@.ci/setup build
	$(BUILD) -tags '$(HEADLESS)' -o bin/parewell-headless ./cmd/parewell

run: build ## build and open the program (FILE=... opens a workbook)
	bin/parewell $(if $(FILE),"$(FILE)")

test: ## all tests but the real window's; no display needed
	@.ci/setup build
	$(GO) test -buildvcs=false -tags '$(HEADLESS)' ./...

golden: ## write the golden files of the command scripts anew
	PAREWELL_GOLDEN=1 $(GO) test -buildvcs=false -count=1 -tags '$(HEADLESS)' -run Scripts ./cmd/parewell

race: ## the tests of everything but cmd under the race detector
	@.ci/setup build
	$(GO) test -buildvcs=false -race -tags '$(HEADLESS)' $$($(GO) list -tags '$(HEADLESS)' ./... | grep -v '/cmd/')

check: ## formatting, vet, staticcheck and known vulnerabilities
	@.ci/setup window
	@.ci/check

fmt: ## format the code
	@$(TOOL) gofumpt -w $$(git ls-files -co --exclude-standard '*.go')

fuzz: ## fuzz every reader of outside data, FUZZTIME each
	@.ci/setup build
	@.ci/fuzz

kills: ## kill the program in the middle of writing, KILLS times
	@.ci/setup build
	PAREWELL_KILLS=$(KILLS) $(GO) test -buildvcs=false -count=1 -timeout 60m -tags '$(HEADLESS)' -run Kill ./recipes/workbook

bench: build ## every budget measured beside its floor, in one table
	@.ci/setup screen
	@.ci/bench

# look: the same program, but it writes what its window shows, so that the test
# can aim its mouse by what a person would read.
look:
	@.ci/setup screen
	$(BUILD) -tags '$(TAGS),look' -o bin/parewell-look ./cmd/parewell

window-test: look ## drive the real window on a screen of its own
	PAREWELL_BINARY=$(CURDIR)/bin/parewell-look $(REALWINDOW) -run RealWindow

shots: look ## pictures of every page, light and dark, into shots/
	PAREWELL_BINARY=$(CURDIR)/bin/parewell-look PAREWELL_SHOTS=$(CURDIR)/shots $(REALWINDOW) -run Shots

guide: shots ## the pictures of the guide and the README anew, from shots/
	@for f in assets/guide/*.png; do convert shots/$$(basename $$f .png)-light-1280.png -resize 960x600 -colors 200 PNG8:$$f; done

package: build ## a Debian package and an archive for machines without Go: dist/
	.ci/package

package-test: package ## check both (CHROOT=1, as root: also on a bare Debian)
	.ci/package-test

soak: ## SOAK scripted actions over a workbook, memory flat within 3 %
	@.ci/setup build
	PAREWELL_SOAK=$(SOAK) $(GO) test -buildvcs=false -count=1 -timeout 30m -tags '$(HEADLESS),soak' -run Soak -v ./ui/sheets

soak-window: build ## the same in the real window, by its keys (5 minutes)
	@.ci/setup screen
	PAREWELL_SOAK_KEYS=4000 PAREWELL_BINARY=$(CURDIR)/bin/parewell $(REALWINDOW) -run RealWindowSoak

long: ## the long runs: 2 minutes a reader, 200 kills, everything else
	$(MAKE) check test race
	$(MAKE) fuzz FUZZTIME=2m
	$(MAKE) kills KILLS=200
	$(MAKE) soak package-test
	$(MAKE) window-test bench

ci: ## what the integration run does
	bash .ci/run

clean: ## remove what was built
	rm -rf bin shots dist
