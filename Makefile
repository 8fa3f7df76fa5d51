# The two set-up commands are `make run` and `make test`; they install the few
# system packages they lack (NO_INSTALL=1 only lists them). `make help` names the
# rest. Needs Go, git and make; /bin/sh is enough.

FLIGHT   =
FUZZTIME = 5s
BUILD    = build
PREFIX   = /usr/local
DESTDIR  =
OLD      =

.PHONY: help run test bench lint fuzz clean pictures moved \
	install install-window install-reckon install-desktop uninstall bundle

help:
	@echo 'make run               build and open the window on the default flight'
	@echo 'make run FLIGHT=NAME   on another one: a shipped name (go run ./cmd/reckon list) or a file'
	@echo 'make test              the whole test suite'
	@echo 'make bench             the benchmarks'
	@echo 'make lint              gofmt, go vet, staticcheck'
	@echo 'make fuzz FUZZTIME=1m  every fuzz test for so long'
	@echo 'make install           put the programs, their icon, menu entry and man page under PREFIX'
	@echo 'make uninstall         take them away again'
	@echo 'make bundle            make one file of them, to be unpacked elsewhere'
	@echo 'make pictures          draw the pictures of the manual anew'
	@echo 'make moved OLD=TAG     by how many NM the answers have moved since a version'
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

# The pictures of the manual, drawn by the program itself.
pictures:
	go run ./internal/pictures/make docs/pictures

# By how much the closing positions of the shipped flights differ from those of an
# older version; exit status 1 if one has moved by more than 1e-6 NM.
moved:
	@.ci/moved '$(OLD)'

install: install-window install-reckon install-desktop

install-window:
	@.ci/packages window
	go build -trimpath -buildvcs=false -ldflags '-s -w' -tags no_emoji -o $(BUILD)/stillair ./cmd/stillair
	@.ci/install window '$(DESTDIR)' '$(PREFIX)' '$(BUILD)'

install-reckon:
	CGO_ENABLED=0 go build -trimpath -buildvcs=false -ldflags '-s -w' -o $(BUILD)/reckon ./cmd/reckon
	@.ci/install reckon '$(DESTDIR)' '$(PREFIX)' '$(BUILD)'

install-desktop:
	go run ./internal/share/make $(BUILD)/share
	@.ci/install desktop '$(DESTDIR)' '$(PREFIX)' '$(BUILD)'

uninstall:
	@.ci/install uninstall '$(DESTDIR)' '$(PREFIX)' '$(BUILD)'

# One file with all that install puts under PREFIX, below a folder of its own.
bundle:
	rm -rf $(BUILD)/bundle
	$(MAKE) install DESTDIR='$(CURDIR)/$(BUILD)/bundle' PREFIX=/stillair
	tar -C $(BUILD)/bundle -czf $(BUILD)/stillair.tar.gz --owner=0 --group=0 --numeric-owner --sort=name stillair
	@echo '$(BUILD)/stillair.tar.gz: unpack it and run stillair/bin/stillair'

clean:
	rm -rf $(BUILD)
