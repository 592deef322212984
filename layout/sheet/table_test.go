package sheet

import (
	"testing"

	"github.com/stretchr/testify/assert"
)

// The last column of a table that wraps loses no word; the others are clipped.
func TestTableWraps(t *testing.T) {
	tab := &table{head: []string{"Candidate", "What"}, flex: []int{1, 0}, wraps: true}
	tab.add("a-form-with-a-name-of-no-more-than-forty", "too large for the slot, and whatever else would have to go for it")
	tab.add("b", "")
	assert.Equal(t, []string{
		"  Candidate                                 What",
		"  a-form-with-a-name-of-no-more-than-forty  too large for the slot, and whatever",
		"                                            else would have to go for it",
		"  b",
	}, tab.lines(80))
	tab.add("so-long-a-name-that-something-of-it-has-to-go-even-so", "")
	assert.Equal(t, []string{
		"  Candidate                                             What",
		"  a-form-with-a-name-of-no-more-than-forty              too large for the slot,",
		"                                                        and whatever else would",
		"                                                        have to go for it",
		"  b",
		"  so-long-a-name-that-something-of-it-has-to-go-even-.",
	}, tab.lines(80))
}
