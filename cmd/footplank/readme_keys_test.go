package main

import (
	"errors"
	"os"
	"path/filepath"
	"regexp"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"footplank/catalog"
	"footplank/layout/plan"
)

// README.md says that its plan has every key there is. What the reader would have
// taken in the place of a key that there is not is the outside list to hold it to.
func TestReadmePlanHasEveryKey(t *testing.T) {
	text, err := os.ReadFile(filepath.Join(root(t), "README.md"))
	require.NoError(t, err)
	m := regexp.MustCompile("(?ms)^```toml\n(.*?)^```$").FindSubmatch(text)
	require.NotNil(t, m)
	shown := string(m[1])

	tables := tablesOf(shown)
	assert.Greater(t, len(tables), 15)
	for name, table := range tables {
		if name == "prices" { // its keys are names of goods
			continue
		}
		for _, key := range keysWanted(t, shown, table.begins, name) {
			sub := strings.TrimPrefix(name+"."+key, ".")
			_, headed := tables[sub]
			given := regexp.MustCompile(`(?m)(^|[{,] *)` + regexp.QuoteMeta(key) + ` *=`).MatchString(table.body)
			assert.True(t, headed || given || strings.Contains(table.body, "[["+sub+"]]"), "[%s] has no %q", name, key)
		}
	}

	// Tables within a line: what one of them leaves out, its comment names.
	inline := regexp.MustCompile(`(?m)^(\w+) *= (?:\[?\{).*$`)
	found := 0
	for _, at := range inline.FindAllStringSubmatchIndex(shown, -1) {
		line, name := shown[at[0]:at[1]], shown[at[2]:at[3]]
		if name == "fill" || name == "place" && strings.Count(line, "{") > 1 { // by the plan's own names
			continue
		}
		found++
		brace := at[0] + strings.IndexByte(line, '{') + 1
		for _, key := range keysWanted(t, shown, brace, name) {
			assert.Regexp(t, `\b`+key+`\b`, line, name)
		}
	}
	assert.Greater(t, found, 5)
}

// planTable is what stands in all tables of one name, and where the first begins.
type planTable struct {
	body   string
	begins int
}

// tablesOf parts a plan by its headers; "" is what stands before the first.
func tablesOf(text string) map[string]planTable {
	header := regexp.MustCompile(`(?m)^\[\[?([a-z_.]+)\]\]?.*$`)
	at := header.FindAllStringSubmatchIndex(text, -1)
	tables := map[string]planTable{"": {text[:at[0][0]], 0}}
	for i, h := range at {
		name, end := text[h[2]:h[3]], len(text)
		if i+1 < len(at) {
			end = at[i+1][0]
		}
		table, ok := tables[name]
		if !ok {
			table.begins = h[1]
		}
		table.body += text[h[1]:end] + "\n"
		tables[name] = table
	}
	return tables
}

// keysWanted returns the keys that the reader would have taken at a place in a
// plan.
func keysWanted(t *testing.T, text string, at int, name string) []string {
	t.Helper()
	put := "\nno_such_key = 1\n"
	if at > 0 && text[at-1] == '{' {
		put = " no_such_key = 1,"
	}
	_, err := plan.Parse("README.md", []byte(text[:at]+put+text[at:]), catalog.Builtin())
	var wrong plan.Errors
	require.True(t, errors.As(err, &wrong), "%s: %v", name, err)
	says := regexp.MustCompile(`unknown key "no_such_key"[:,] want (.*)`).FindStringSubmatch(wrong[0].Msg)
	require.NotNil(t, says, "%s: %v", name, wrong)
	var keys []string
	for _, q := range regexp.MustCompile(`"([^"]+)"`).FindAllStringSubmatch(says[1], -1) {
		keys = append(keys, q[1])
	}
	return keys
}
