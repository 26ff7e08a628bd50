# make run       build the page and serve it on this machine
# make test      everything that is checked; 0 when it passes
# make check     the part of it for daily work, under a minute
# make build     dist/site/ and dist/pullline.html
# make fuzz      hostile inputs for five minutes each; FUZZTIME sets another time
# make bench     how long the calculations take, natively and in the browsers
# make screenshot  take the picture in README.md anew
# make browsers  install the browsers the tests drive (Debian)
# make typescript  install what checks the page's scripts by types (Debian)
#
# PULLLINE_NO_BROWSER=1 leaves the browser tests out, PULLLINE_ENGINE=NAME but one engine.
# PULLLINE_NO_TYPES=1 leaves the types of the scripts out.
# PULLLINE_SHOTS=DIR keeps the screenshots they take.

.PHONY: run build test check vet test-go test-fuzz fuzz test-wasm test-browsers test-chromium test-webkit bench screenshot browsers typescript

WASM_EXEC = $(shell go env GOROOT)/lib/wasm/go_js_wasm_exec

# What the program is made of, but for the bridge.
ROOMS = $(shell go list ./rigging/... ./wasm/... | grep -v -e /wasm/site -e /wasm/browser)

run:
	go run ./wasm/site serve

build:
	go run ./wasm/site build

# For daily work, under a minute: vet, the Go tests, and the page opened once.
check: vet
	go test $(ROOMS)
	PULLLINE_BROWSERS=1 PULLLINE_ENGINE=chromium go test -count=1 -run 'TestPageOpens$$|TestReportEqualsNative' ./wasm/browser

test: vet test-go test-fuzz test-wasm test-browsers

vet:
	go vet ./...
	GOOS=js GOARCH=wasm go vet ./wasm $(ROOMS)
	@unformatted=$$(gofmt -l rigging wasm); \
	if [ -n "$$unformatted" ]; then echo "gofmt these files:"; echo "$$unformatted"; exit 1; fi

# The build is made by the go command, which the test cache does not see.
test-go: $(if $(filter 1,$(PULLLINE_NO_TYPES)),,typescript)
	go test $(ROOMS)
	go test -count=1 ./wasm/site/...

# Every fuzz target for a count of inputs, not a time: at the end of a time the go
# command may call a target failed that was only cut off. Seeds lie in testdata/fuzz of
# each package, and an input that fails is written there.
FUZZTIME = 5000x

fuzz: FUZZTIME = 5m
fuzz: test-fuzz

test-fuzz:
	@for dir in $$(grep -rl --include=*_test.go '^func Fuzz' rigging wasm | xargs -n1 dirname | sort -u); do \
		for name in $$(go test -list '^Fuzz' ./$$dir | grep '^Fuzz'); do \
			go test -run '^$$' -fuzz "^$$name\$$" -fuzztime $(FUZZTIME) -fuzzminimizetime 200x ./$$dir || exit 1; \
		done; \
	done

# In WebAssembly, where the page computes, what may differ there: the mechanics
# and the tables against their published values, numbers read and written, plans
# that balance and whose working works out. What holds on any machine is tested
# natively, the bridge in the browsers.
ANYWHERE = IsNeverBetter|AgainstAScan|RandomReevings|LoadsRoundUp|FieldRoundTripFromFile

test-wasm:
	@if command -v node >/dev/null; then \
		echo "Go tests of the mechanics and of numbers in WebAssembly"; \
		export GOOS=js GOARCH=wasm && \
		go test -exec "$(WASM_EXEC)" -skip '$(ANYWHERE)' ./rigging ./rigging/jsontext ./wasm/units && \
		go test -exec "$(WASM_EXEC)" -run 'Demo|Balances|WorksOut|GivesTheReportsNumbers|FallOfAPlan|ASecondWay|Published|FallOfTheExample' \
			./rigging/plan ./wasm/class/bench ./wasm/class/practice ./wasm/class/fall; \
	else \
		echo "NOTE: Node is not installed, so the Go tests did not run in WebAssembly."; \
	fi

ifeq ($(PULLLINE_NO_BROWSER),1)
test-browsers:
	@echo "NOTE: PULLLINE_NO_BROWSER=1, so the browser tests did not run."
else
# The two engines side by side, each saying what came of it at its end.
test-go test-browsers: browsers
test-browsers:
	@$(MAKE) --no-print-directory --output-sync=target -j2 test-chromium test-webkit

test-chromium test-webkit:
	PULLLINE_BROWSERS=1 PULLLINE_ENGINE=$(@:test-%=%) go test -count=1 -timeout 50m ./wasm/browser/...
endif

bench: browsers
	go test -run '^$$' -bench . -benchmem $(ROOMS)
	PULLLINE_BROWSERS=1 go test -count=1 -timeout 20m -run '^$$' -bench . -benchtime 1x ./wasm/browser

# The page has few colours: a palette of them keeps the file small.
screenshot: browsers
	go run ./wasm/browser/shot -width 1280 -height 800 -colours 256 -out testdata/screenshots/page.png

# Installs the packages of Debian that $(1) finds missing; $(2) does without them.
define install
	@missing=""; \
	have() { command -v $$1 >/dev/null || [ -x /usr/bin/$$1 ]; }; \
	$(1); \
	[ -z "$$missing" ] && exit 0; \
	echo "Debian packages missing:$$missing"; \
	if ! command -v apt-get >/dev/null; then \
		echo "There is no apt-get here: install them another way, or set $(2)=1."; exit 1; \
	elif [ "$$(id -u)" = 0 ]; then become=""; \
	elif command -v sudo >/dev/null && sudo -n true 2>/dev/null; then become="sudo"; \
	else \
		echo "Not root, and sudo needs a password. Run: sudo apt-get install$$missing"; \
		echo "or set $(2)=1 to leave out what needs them."; exit 1; \
	fi; \
	$$become apt-get update -q && \
	$$become env DEBIAN_FRONTEND=noninteractive apt-get install -y -q --no-install-recommends$$missing
endef

browsers:
	$(call install,have chromium || have chromium-browser || missing="$$missing chromium"; \
	have chromedriver || missing="$$missing chromium-driver"; \
	have WebKitWebDriver || missing="$$missing webkit2gtk-driver"; \
	have Xvfb || missing="$$missing xvfb"; \
	have zbarimg || missing="$$missing zbar-tools",PULLLINE_NO_BROWSER)

typescript:
	$(call install,have tsc || missing=" node-typescript",PULLLINE_NO_TYPES)
