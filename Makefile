# Go alone runs Drawoff and its plain tests: go run . and go test ./... need
# nothing of this file. make test is all that must pass before a change goes
# in; it installs a browser and a JavaScript runtime where they are missing.

SHELL := /bin/bash
.SHELLFLAGS := -euo pipefail -c
.NOTPARALLEL:

# A clone that belongs to somebody else, as in a container, gives no version to stamp.
export GOFLAGS := $(GOFLAGS) -buildvcs=false

WASM := GOOS=js GOARCH=wasm
# As the site makes the page's module, and rewrites it.
SERVED := GOEXPERIMENT=nogreenteagc go test -ldflags='-s -w' -gcflags=drawoff/...=-l -exec 'env GOOS= GOARCH= GOEXPERIMENT= go run drawoff/www/site/slimmed'
# Whose numbers must be right in the browser too, where Exp, Pow and Tanh
# differ from native code in the last bits.
NUMERIC := ./catalog ./pipeline/quantity/... ./pipeline/liquid ./pipeline/vessel ./pipeline/flow ./pipeline/transfer ./pipeline/surge ./pipeline/route

.PHONY: test tools lint unit short-fuzz wasm browser edge lighthouse fuzz bench build serve worker

test: tools lint unit short-fuzz wasm browser edge

tools:
	.ci/tools

lint:
	@files=$$(gofmt -l .); [ -z "$$files" ] || { printf 'not as gofmt has it:\n%s\n' "$$files" >&2; exit 1; }
	go vet ./...
	go vet -tags=browser ./www/browser
	go vet -tags=edge ./www/edge/live ./pipeline/workfile
	$(WASM) go vet ./wasm/...
	go tool staticcheck ./...
	go tool staticcheck -tags=browser ./www/browser
	go tool staticcheck -tags=edge ./www/edge/live ./pipeline/workfile
	$(WASM) "$$(go tool -n staticcheck)" ./wasm/...

# Under the race detector the size of the first load is not measured, since
# packing takes minutes, and few repairs are tried: both are done right after.
unit:
	go test -race -shuffle=on ./...
	go test -v -run=Small ./www/site
	go test -v -run=Repairs ./pipeline/mend | grep -v "^=== "

short-fuzz:
	.ci/fuzz 10s

fuzz:
	.ci/fuzz 60s

wasm:
	$(WASM) $(SERVED) ./wasm/door $(NUMERIC)

# SCREENSHOTS=folder keeps pictures of the page and a print of it.
browser: .ci/axe/node_modules/.package-lock.json
	go test -v -tags=browser ./www/browser | grep -v '^=== '

# The edge worker in the platform's own runtime, and in Node the module for
# other programs, and a reader of DXF that is not ours. What they need comes from the npm registry that npm is set up for.
edge: .ci/edge/node_modules/.package-lock.json
	go test -v -tags=edge ./www/edge/live | grep -v '^=== '
	go test -v -tags=edge -run=AnotherReader ./pipeline/workfile

.ci/%/node_modules/.package-lock.json: .ci/%/package-lock.json
	npm ci --prefix .ci/$* --ignore-scripts --no-audit --no-fund --loglevel=error

# How the built site loads, as a phone and as a desk see it: a number for
# people, which depends on the machine, and so no part of make test.
lighthouse: build .ci/lighthouse/node_modules/.package-lock.json
	node .ci/lighthouse/measure.mjs dist

bench:
	go test -run='^$$' -bench=. -benchmem ./...
	go test -tags=edge -run='^$$' -bench=. ./www/edge/live

build:
	go run . build -o dist

# Puts the edge worker on Cloudflare Workers, once you are logged in there.
worker:
	go run . build -edge -o dist-edge
	npx wrangler@4 deploy -c dist-edge/wrangler.json

serve:
	go run . serve
