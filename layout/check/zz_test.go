package check
import "testing"
func TestZZ(t *testing.T){ for _,c:=range limitCases { p:=tiny(); c.spoil(p, 5*mm); for _,f:=range lineup(p) { t.Log(f.Level,f.Code,f.Text) } } }
