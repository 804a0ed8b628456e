# SPDX-License-Identifier: GPL-3.0-or-later
# Every code of a finding in the source stands in the table and in the manual page, and no other does.
. "$TOP/tests/lib.sh"

cd "$work" || exit 1
table=$TOP/standards-notes/findings.csv
cat "$TOP"/src/curve/*.c "$TOP"/src/fuel/*.c | tr -s '\n\t ' ' ' |
	grep -oE '(bc_findings_(add|say)\( ?findings, |add_formatted\(findings, |\{PLACE\([a-z_]*\), )"[a-z-]+"|bc_findings_say\( ?findings, code|: "[a-z]+-[a-z]+";' |
	sed -n 's/.*"\([a-z-]*\)".*/\1/p' >codes
grep -v '^#' "$TOP/standards-notes/shelf-compounds.csv" | grep -oE 'styrenic-oil|one-compound' >>codes
sed 's/^feed-\(unknown\|words-unread\)$/=&/; s/^feed-.*/feed-*/; s/^=//' codes | sort -u >in-source
echo 'measured-*' >>in-source
sort -u -o in-source in-source
grep -v '^#' "$table" | sed 1d | cut -d, -f1 | sort -u >in-table
diff in-source in-table >differing
expect_empty 'findings: source and table name the same codes' differing
[ "$(wc -l <in-table)" -gt 40 ] && pass 'findings: table' || fail 'findings: table' "$(wc -l <in-table)"
sed -n '/^\.Sh FINDINGS/,/^\.Sh JSON/s/^\.It Ql //p' "$TOP/src/man/boilcut.1" | sort -u >in-manual
diff in-table in-manual >differing
expect_empty 'findings: table and manual name the same codes' differing
finish
