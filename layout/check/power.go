package check

import (
	"context"

	"footplank/layout"
	"footplank/layout/power"
)

// powerMap returns the plan's power map, nil when it has none to make.
func powerMap(p *layout.Plan) *power.Result {
	m, err := power.Map(context.Background(), p)
	if err != nil {
		return nil
	}
	return m
}

// power files what is wrong with the power map in this line-up. What is wrong in
// every line-up is said in each.
func (c *checker) power(m *power.Result) {
	if m == nil {
		return
	}
	for _, i := range m.Issues {
		if i.Lineup == "" || i.Lineup == c.l.Name {
			c.addMeasured(i.Code, Level(i.Level), i.Text, i.Measured, i.Limit, i.Unit, i.Units...)
		}
	}
}
