package layout

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
)

func TestAnd(t *testing.T) {
	assert.Equal(t, "", And(nil))
	assert.Equal(t, "a", And([]string{"a"}))
	assert.Equal(t, "a and b", And([]string{"a", "b"}))
	assert.Equal(t, "a, b and c", And([]string{"a", "b", "c"}))
}

func TestShortened(t *testing.T) {
	long := strings.Repeat("ö", 40)
	assert.Equal(t, long, Shortened(long))
	assert.Equal(t, long+"...", Shortened(long+"ö"))
}
