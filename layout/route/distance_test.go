package route_test

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"footplank/layout"
	"footplank/layout/route"
)

func TestDistanceRoundsUp(t *testing.T) {
	assert.Equal(t, layout.Length(5), route.Distance(route.Point3{}, route.Point3{X: 3, Y: 4}))
	assert.Equal(t, layout.Length(2), route.Distance(route.Point3{}, route.Point3{X: 1, Y: 1, Z: 1}))
}
