# SPDX-License-Identifier: GPL-3.0-or-later
# Builds, tests and installs boilcut. 'make help' lists the targets.

VERSION = 0.1.0

CC = gcc
CFLAGS = -O2 -g
CPPFLAGS =
LDFLAGS =
PREFIX = /usr/local
DESTDIR =
BUILD = build
SECONDS = 60
DEMO_SAMPLE = samples/lake-shed-14.csv
PKG_CONFIG = pkg-config

.DEFAULT_GOAL := all
.DELETE_ON_ERROR:
.SUFFIXES:
MAKEFLAGS += --no-builtin-rules --no-print-directory

Q = $(if $(V),,@)
say = @$(if $(V),:,printf '  %-8s%s\n' $(1) '$(2)')

# ---- flags that no override may lose

# The libraries' flags are asked for when first used: 'deps' may have to install pkg-config first.
PKG_CFLAGS = $(eval PKG_CFLAGS := $$(shell $(PKG_CONFIG) --cflags gsl jansson sqlite3))$(PKG_CFLAGS)
PKG_LIBS = $(eval PKG_LIBS := $$(shell $(PKG_CONFIG) --libs gsl jansson sqlite3))$(PKG_LIBS)
CMOCKA_CFLAGS = $(eval CMOCKA_CFLAGS := $$(shell $(PKG_CONFIG) --cflags cmocka))$(CMOCKA_CFLAGS)
CMOCKA_LIBS = $(eval CMOCKA_LIBS := $$(shell $(PKG_CONFIG) --libs cmocka))$(CMOCKA_LIBS)

WARNINGS = -Wall -Wextra -Wpedantic -Wshadow -Wconversion -Wstrict-prototypes -Wmissing-prototypes
# clang takes C's own NAN, a float, for a promotion
ifeq ($(findstring clang,$(CC)),)
WARNINGS += -Wdouble-promotion
endif

ifdef SANITIZE
SAFETY_CFLAGS = -fsanitize=$(SANITIZE) -fno-sanitize-recover=all -fno-omit-frame-pointer
SAFETY_LDFLAGS = -fsanitize=$(SANITIZE)
else
SAFETY_CFLAGS = -fstack-protector-strong -fPIE \
	$(if $(filter -O0 --coverage,$(CFLAGS)),,-U_FORTIFY_SOURCE -D_FORTIFY_SOURCE=2)
SAFETY_LDFLAGS = -pie -Wl,-z,relro -Wl,-z,now
endif

ALL_CPPFLAGS = -D_POSIX_C_SOURCE=200809L -DBOILCUT_VERSION='"$(VERSION)"' -Isrc -I$(BUILD)/gen \
	$(CPPFLAGS)
ALL_CFLAGS = -std=c17 -pthread -ffp-contract=off $(WARNINGS) $(SAFETY_CFLAGS) $(CFLAGS)
LIBS = $(PKG_LIBS) -lcsv -lm -pthread
COMPILE = $(CC) $(ALL_CPPFLAGS) $(PKG_CFLAGS) $(ALL_CFLAGS) -MMD -MP
LINK = $(CC) $(ALL_CFLAGS) $(SAFETY_LDFLAGS) $(LDFLAGS)

# ---- what there is

ROOMS = base sample curve fuel verdict still judgement book report command
SOURCES := $(wildcard $(ROOMS:%=src/%/*.c))
HEADERS := $(wildcard $(ROOMS:%=src/%/*.h) tests/unit/*.h tests/unit/*/*.h)
MAIN := $(wildcard src/boilcut.c)
TABLES := $(wildcard standards-notes/*.csv)
UNIT_SOURCES := $(wildcard tests/unit/test_*.c tests/unit/*/test_*.c)
ifdef ONLY
UNIT_SOURCES := $(wildcard tests/unit/$(ONLY)/test_*.c)
endif
FUZZ_SOURCES := $(wildcard tests/fuzz/fuzz_*.c)
CHECK_FILES := $(wildcard tests/outside/*.failing tests/outside/*.chk)
OUTSIDE_SOURCES := $(wildcard tests/outside/*.c)
SHELL_TESTS := $(wildcard tests/outside/*.sh tests/command/*.sh tests/messages/*.sh tests/bad/run.sh \
	tests/golden/run.sh tests/reference/*.sh)
C_FILES := $(SOURCES) $(MAIN) $(UNIT_SOURCES) $(FUZZ_SOURCES) $(OUTSIDE_SOURCES) $(wildcard tests/bench/*.c)

LIBRARY := $(BUILD)/libboilcut.a
PROGRAM := $(MAIN:src/%.c=$(BUILD)/%)
FAULTY_LIBRARY := $(BUILD)/faulty/libboilcut.a
FAULTY_PROGRAM := $(MAIN:src/%.c=$(BUILD)/faulty/%)
UNIT_PROGRAMS := $(UNIT_SOURCES:%.c=$(BUILD)/%)
OUTSIDE_PROGRAMS := $(OUTSIDE_SOURCES:%.c=$(BUILD)/%)
# the one that reads the check files, and those that bring their own data
CHECK_RUNNER := $(filter %/run,$(OUTSIDE_PROGRAMS))
BENCH_PROGRAMS := $(patsubst %.c,$(BUILD)/%,$(wildcard tests/bench/*.c))
FUZZ_PROGRAMS := $(FUZZ_SOURCES:%.c=$(BUILD)/%)

OBJECTS := $(SOURCES:%.c=$(BUILD)/%.o) $(BUILD)/gen/tables.o
FAULTY_OBJECTS := $(SOURCES:%.c=$(BUILD)/faulty/%.o) $(BUILD)/gen/tables.o
STYLES := $(wildcard src/report/*.css)
SCRIPTS := $(wildcard src/book/*.sql)
GENERATED := $(TABLES:standards-notes/%.csv=$(BUILD)/gen/%.inc) $(STYLES:src/report/%=$(BUILD)/gen/%.inc) \
	$(SCRIPTS:src/book/%=$(BUILD)/gen/%.inc)

.PHONY: all lib programs deps deps-dev demo check check-long check-unit check-run check-asan check-browser coverage fuzz \
	fuzz-run bench study notes lint format install uninstall installcheck clean help

all: lib $(PROGRAM)

lib: $(LIBRARY)

# everything that compiles
programs: all $(FAULTY_PROGRAM) $(UNIT_PROGRAMS) $(OUTSIDE_PROGRAMS) $(BENCH_PROGRAMS)

deps:
	@CC='$(CC)' PKG_CONFIG='$(PKG_CONFIG)' sh .ci/deps build

deps-dev: deps
	@sh .ci/deps dev

# ---- building

# 'deps' runs before the first compilation, but is never a reason to compile again
$(OBJECTS) $(FAULTY_OBJECTS): | $(GENERATED) deps

$(BUILD)/gen/tables.c: $(TABLES) src/base/tables.awk standards-notes
	$(call say,GEN,$@)
	$(Q)mkdir -p $(@D)
	$(Q)LC_ALL=C awk -f src/base/tables.awk $(TABLES) /dev/null >$@

$(BUILD)/gen/%.inc: standards-notes/%.csv src/base/initialiser.awk
	$(call say,GEN,$@)
	$(Q)mkdir -p $(@D)
	$(Q)LC_ALL=C awk -f src/base/initialiser.awk $< >$@

# each line a string
$(BUILD)/gen/%.css.inc: src/report/%.css
	$(call say,GEN,$@)
	$(Q)mkdir -p $(@D)
	$(Q)LC_ALL=C sed 's/[\\"?]/\\&/g; s/.*/"&\\n",/' $< >$@

$(BUILD)/gen/%.sql.inc: src/book/%.sql
	$(call say,GEN,$@)
	$(Q)mkdir -p $(@D)
	$(Q)LC_ALL=C sed 's/[\\"?]/\\&/g; s/.*/"&\\n",/' $< >$@

$(BUILD)/gen/tables.o: $(BUILD)/gen/tables.c
	$(call say,CC,$<)
	$(Q)$(COMPILE) -c -o $@ $<

$(BUILD)/src/%.o: src/%.c
	$(call say,CC,$<)
	$(Q)mkdir -p $(@D)
	$(Q)$(COMPILE) -c -o $@ $<

$(BUILD)/faulty/src/%.o: src/%.c
	$(call say,CC,$< with faults)
	$(Q)mkdir -p $(@D)
	$(Q)$(COMPILE) -DBC_FAULTS -c -o $@ $<

$(BUILD)/tests/%.o: tests/%.c | $(GENERATED) deps
	$(call say,CC,$<)
	$(Q)mkdir -p $(@D)
	$(Q)$(COMPILE) -DBC_FAULTS -Itests $(CMOCKA_CFLAGS) -c -o $@ $<

$(LIBRARY): $(OBJECTS)
$(FAULTY_LIBRARY): $(FAULTY_OBJECTS)
$(LIBRARY) $(FAULTY_LIBRARY):
	$(call say,AR,$@)
	$(Q)mkdir -p $(@D)
	$(Q)rm -f $@
	$(Q)ar rcs $@ $^

$(BUILD)/boilcut: $(BUILD)/src/boilcut.o $(LIBRARY)
$(BUILD)/faulty/boilcut: $(BUILD)/faulty/src/boilcut.o $(FAULTY_LIBRARY)
$(BUILD)/boilcut $(BUILD)/faulty/boilcut:
	$(call say,LINK,$@)
	$(Q)$(LINK) -o $@ $^ $(LIBS)

$(BUILD)/src/boilcut.o $(BUILD)/faulty/src/boilcut.o: | $(GENERATED) deps

$(UNIT_PROGRAMS): %: %.o $(FAULTY_LIBRARY)
	$(call say,LINK,$@)
	$(Q)$(LINK) -o $@ $^ $(CMOCKA_LIBS) $(LIBS)

$(OUTSIDE_PROGRAMS) $(BENCH_PROGRAMS): %: %.o $(FAULTY_LIBRARY)
	$(call say,LINK,$@)
	$(Q)$(LINK) -o $@ $^ $(LIBS)

$(FUZZ_PROGRAMS): %: %.o $(FAULTY_LIBRARY)
	$(call say,LINK,$@)
	$(Q)$(LINK) -fsanitize=fuzzer -o $@ $^ $(LIBS)

.PRECIOUS: $(BUILD)/tests/%.o

# ---- testing

check: check-run

# the same suite, and whatever a test adds when BOILCUT_LONG is set
check-long: export BOILCUT_LONG = 1
check-long: check-run

check-unit: $(UNIT_PROGRAMS)
	@BUILD='$(BUILD)' sh tests/run.sh $(UNIT_PROGRAMS)

check-run: programs
	@BUILD='$(BUILD)' sh tests/run.sh $(UNIT_PROGRAMS) $(filter-out %/run,$(OUTSIDE_PROGRAMS)) \
		$(if $(CHECK_FILES),$(CHECK_RUNNER:%='% $(CHECK_FILES)')) $(SHELL_TESTS)

check-asan: deps-dev
	$(Q)ASAN_OPTIONS=detect_leaks=1 UBSAN_OPTIONS=print_stacktrace=1 $(MAKE) check-run \
		BUILD='$(BUILD)/asan' SANITIZE=address,undefined CFLAGS='-O1 -g'

# pages, labels and cards in a real browser
check-browser: all
	@sh .ci/deps browser
	@BOILCUT='$(abspath $(PROGRAM))' sh tests/browser/run.sh

# a process killed while it writes its counts leaves a torn file, of which the next would complain
# into the output that is tested
coverage: deps-dev
	$(Q)rm -rf '$(BUILD)/coverage/report'
	$(Q)find '$(BUILD)' -path '*/coverage/*' -name '*.gcda' -delete 2>/dev/null || true
	$(Q)GCOV_ERROR_FILE=/dev/null $(MAKE) check-run BUILD='$(BUILD)/coverage' \
		CFLAGS='-O0 -g --coverage' LDFLAGS='$(LDFLAGS) --coverage'
	$(Q)lcov --quiet --capture --directory '$(BUILD)/coverage' --base-directory . --no-external \
		--output-file '$(BUILD)/coverage/all.info' 2>'$(BUILD)/coverage/lcov.log' || \
		{ cat '$(BUILD)/coverage/lcov.log'; exit 1; }
	$(Q)lcov --quiet --extract '$(BUILD)/coverage/all.info' '$(CURDIR)/src/*' \
		--output-file '$(BUILD)/coverage/src.info'
	$(Q)genhtml --quiet --output-directory '$(BUILD)/coverage/report' '$(BUILD)/coverage/src.info'
	@lcov --list '$(BUILD)/coverage/src.info' | sed 's/|  *[0-9.]*%* *[0-9]*$$//' | tail -n +3
	@lcov --summary '$(BUILD)/coverage/src.info' 2>&1 | \
		sed -n 's/^  lines\.*: \([0-9.]*%\).*/line coverage of src: \1/p'

fuzz: deps-dev
	$(Q)$(MAKE) fuzz-run BUILD='$(BUILD)/fuzz' CC=clang CFLAGS='-O1 -g' SECONDS='$(SECONDS)' \
		SANITIZE=address,undefined,fuzzer-no-link

fuzz-run: $(FUZZ_PROGRAMS)
	@for program in $(FUZZ_PROGRAMS); do \
		name=$${program##*/fuzz_}; corpus='$(BUILD)'/corpus/$$name; \
		mkdir -p "$$corpus"; \
		if [ -d tests/fuzz/corpus/$$name ]; then cp -r tests/fuzz/corpus/$$name/. "$$corpus"; fi; \
		words=tests/fuzz/$$name.dict; \
		echo "fuzzing $$name for $(SECONDS) s"; \
		$$program -max_total_time=$(SECONDS) -timeout=10 -rss_limit_mb=2048 -verbosity=0 \
			-print_final_stats=1 -artifact_prefix='$(BUILD)'/ \
			$$([ ! -e $$words ] || echo -dict=$$words) "$$corpus" \
			>'$(BUILD)'/$$name.log 2>&1 || { cat '$(BUILD)'/$$name.log; exit 1; }; \
		sed -n 's/^stat::number_of_executed_units: /  inputs tried: /p' '$(BUILD)'/$$name.log; \
	done

bench: all $(BENCH_PROGRAMS)
	@for script in $(wildcard tests/bench/*.sh); do \
		BOILCUT='$(abspath $(PROGRAM))' BUILD='$(abspath $(BUILD))' TOP='$(CURDIR)' sh $$script || exit 1; \
	done

# the judgement and the still over a folder of measured oils, BOILCUT_DATA; RENEW=1 also writes the
# tables in standards-notes/studies/
study: export PYTHONDONTWRITEBYTECODE = 1
study: export BOILCUT = $(abspath $(PROGRAM))
study: export BOILCUT_MIXTURE = $(abspath $(BUILD))/tests/bench/mixture
study: all $(BENCH_PROGRAMS)
	@if [ -n "$$BOILCUT_DATA" ]; then $(BUILD)/tests/bench/curve_study "$$BOILCUT_DATA"; \
		else echo 'curve_study: skipped: BOILCUT_DATA names no folder of measured oils'; fi
	@python3 tests/bench/study.py
	@python3 tests/bench/findings_study.py
	@for script in topping cut_yields known_mixtures errors; do \
		python3 tests/reference/$$script.py $(if $(RENEW),renew) || exit 1; \
	done
	@for script in jets jets_flask survey; do \
		python3 tests/reference/$$script.py || exit 1; \
	done

demo: all
	$(BUILD)/boilcut judge $(DEMO_SAMPLE)
	$(BUILD)/boilcut draw samples/*.csv --to plots
	@$(BUILD)/boilcut tap samples/light-ends.csv --want heating-oil-range --charge 40L \
		--heater 2kW --charts plots >/dev/null
	@$(BUILD)/boilcut mix 'samples/light-ends.csv=?' samples/drying-room.csv=200L \
		--want heating-oil-range --charts plots >/dev/null
	@$(BUILD)/boilcut still calibrate --before samples/in-12.csv --after samples/out-12.csv \
		--charts plots >/dev/null

# what the check files say of the formulae; the table is embedded by the next build
notes: $(CHECK_RUNNER)
	$(Q)$(CHECK_RUNNER) --table $(CHECK_FILES) >'$(BUILD)'/formula-checks.csv
	$(Q)$(CHECK_RUNNER) --sources $(CHECK_FILES) >'$(BUILD)'/SOURCES.md
	$(Q)cp '$(BUILD)'/formula-checks.csv '$(BUILD)'/SOURCES.md standards-notes/

# ---- reading the code

TIDY_FLAGS = $(ALL_CPPFLAGS) -DBC_FAULTS -Itests $(PKG_CFLAGS) $(CMOCKA_CFLAGS) -std=c17

lint: deps-dev $(GENERATED)
	@sh tests/lint/layers.sh
	@sh tests/lint/rules.sh
	$(Q)clang-format --dry-run -Werror $(C_FILES) $(HEADERS)
	$(Q)cppcheck --quiet --std=c11 --error-exitcode=1 --inline-suppr -j2 \
		--enable=warning,performance,portability -Isrc -I'$(BUILD)/gen' \
		--suppress=missingIncludeSystem $(SOURCES) $(MAIN)
	$(Q)$(MAKE) programs BUILD='$(BUILD)/lint-gcc' CC=gcc CFLAGS='-O2 -Werror'
	$(Q)$(MAKE) programs BUILD='$(BUILD)/lint-clang' CC=clang CFLAGS='-O1 -Werror'
	$(Q)printf '%s\n' $(SOURCES) $(MAIN) | xargs -P2 -n4 sh -c \
		'clang-tidy --quiet --warnings-as-errors="*" "$$@" -- $(subst ','\'',$(TIDY_FLAGS)) 2>&1 | \
		grep -v "warnings\? generated\|Suppressed\|Use -header-filter" | { ! grep .; }' tidy
	@echo 'lint: nothing found'

format: deps-dev
	clang-format -i $(C_FILES) $(HEADERS)

# ---- installing

BIN_DIR = $(PREFIX)/bin
SHARE_DIR = $(PREFIX)/share/boilcut
# from:to pairs
INSTALLED = $(foreach f,$(wildcard src/man/*.1),$f:$(PREFIX)/share/man/man1/$(notdir $f)) \
	$(foreach f,$(wildcard src/man/*.5),$f:$(PREFIX)/share/man/man5/$(notdir $f)) \
	$(foreach f,$(wildcard src/completion/boilcut.bash), \
		$f:$(PREFIX)/share/bash-completion/completions/boilcut) \
	$(foreach f,$(wildcard src/completion/_boilcut), \
		$f:$(PREFIX)/share/zsh/site-functions/_boilcut) \
	$(foreach f,$(wildcard src/completion/boilcut.fish), \
		$f:$(PREFIX)/share/fish/vendor_completions.d/boilcut.fish) \
	$(foreach f,$(wildcard standards-notes/*.*),$f:$(SHARE_DIR)/$f) \
	$(foreach f,$(wildcard samples/*.* samples/control/*.*),$f:$(SHARE_DIR)/$f)

install: all
	$(Q)install -d '$(DESTDIR)$(BIN_DIR)'
	$(Q)install -m 755 $(PROGRAM) '$(DESTDIR)$(BIN_DIR)/boilcut'
	$(Q)for pair in $(INSTALLED); do \
		to='$(DESTDIR)'"$${pair#*:}"; \
		install -d "$${to%/*}" && install -m 644 "$${pair%%:*}" "$$to" || exit 1; \
	done

uninstall:
	$(Q)rm -f '$(DESTDIR)$(BIN_DIR)/boilcut'
	$(Q)for pair in $(INSTALLED); do rm -f '$(DESTDIR)'"$${pair#*:}"; done
	$(Q)for folder in '$(DESTDIR)$(SHARE_DIR)/standards-notes' \
		'$(DESTDIR)$(SHARE_DIR)/samples/control' '$(DESTDIR)$(SHARE_DIR)/samples' \
		'$(DESTDIR)$(SHARE_DIR)'; do \
		if [ -d "$$folder" ]; then rmdir "$$folder"; fi; \
	done

installcheck:
	$(Q)'$(DESTDIR)$(BIN_DIR)/boilcut' --version
	$(Q)'$(DESTDIR)$(BIN_DIR)/boilcut' judge '$(DESTDIR)$(SHARE_DIR)/$(DEMO_SAMPLE)' >/dev/null
	$(Q)'$(DESTDIR)$(BIN_DIR)/boilcut' judge --json '$(DESTDIR)$(SHARE_DIR)/$(DEMO_SAMPLE)' | \
		grep -q '"verdict"'
	@echo 'installcheck: the installed program judges the installed sample'

clean:
	rm -rf '$(BUILD)'

help:
	@echo 'make all           the program, $(BUILD)/boilcut'
	@echo 'make demo          what is missing, the program, and the main job on a sample'
	@echo 'make check         what is missing, the program, and all tests'
	@echo 'make check-unit    the unit tests alone; ONLY=base those of one folder'
	@echo 'make check-long    the same with the slow ones'
	@echo 'make check-asan    the tests under address and undefined-behaviour sanitizers'
	@echo 'make check-browser pages, labels and cards in a headless browser'
	@echo 'make coverage      the tests with line coverage of src/'
	@echo 'make fuzz          every fuzzer for SECONDS=60 seconds'
	@echo 'make bench         time and memory'
	@echo 'make study         judgement and still over measured oils in BOILCUT_DATA'
	@echo 'make notes         the table of checks and the list of sources in standards-notes/'
	@echo 'make lint          layers, rules, formatting and static analysis'
	@echo 'make format        reformats the C files'
	@echo 'make deps          installs what building and testing need (deps-dev: all targets)'
	@echo 'make install       into DESTDIR PREFIX=/usr/local; also uninstall, installcheck'
	@echo 'make clean         removes $(BUILD)/'
	@echo
	@echo 'Variables: CC CFLAGS CPPFLAGS LDFLAGS PREFIX DESTDIR BUILD; V=1 shows the commands.'

-include $(shell [ -d '$(BUILD)' ] && find '$(BUILD)/src' '$(BUILD)/faulty' '$(BUILD)/gen' \
	'$(BUILD)/tests' -name '*.d' 2>/dev/null)
