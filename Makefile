# The two set-up commands are `make run` and `make test`; they install the few
# system packages they lack (NO_INSTALL=1 only lists them). `make help` names the
# rest. Needs Go, git and make; /bin/sh is enough.

FLIGHT   =
FUZZTIME = 5s
BUILD    = build

.PHONY: help run test bench lint fuzz clean

help:
	@echo 'make run               build and open the window on the default flight'
	@echo 'make run FLIGHT=NAME   on another one: a shipped name (go run ./cmd/reckon list) or a file'
	@echo 'make test              the whole test suite'
	@echo 'make bench             the benchmarks'
	@echo 'make lint              gofmt, go vet, staticcheck'
	@echo 'make fuzz FUZZTIME=1m  every fuzz test for so long'
	@echo 'make clean             remove what was built'
	@echo 'NO_INSTALL=1           list missing system packages instead of installing them'

run:
	@.ci/display
	@.ci/packages window
	@echo 'building the window (the first time takes minutes)'
	go build -buildvcs=false -o $(BUILD)/stillair ./cmd/stillair
	@$(BUILD)/stillair $(if $(FLIGHT),'$(FLIGHT)')

test:
	@.ci/packages test
	@FUZZTIME=$(FUZZTIME) .ci/test

bench:
	go test -run '^$$' -bench . -benchmem ./...

lint:
	@.ci/lint

fuzz:
	.ci/fuzz $(FUZZTIME)

clean:
	rm -rf $(BUILD)
