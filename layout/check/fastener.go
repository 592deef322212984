package check

import "footplank/layout/mount"

// fastener files what is wrong with the fastener in this line-up.
func (c *checker) fastener(r *mount.Result) {
	for i := range r.Issues {
		f := &r.Issues[i]
		if f.Lineup != c.l.Name {
			continue
		}
		level := Caution
		if f.Fault {
			level = Fault
		}
		c.addMeasured(f.Code, level, f.Text, round3(f.Measured), round3(f.Limit), f.Unit, f.Units...)
	}
}
