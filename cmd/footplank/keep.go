package main

import (
	"errors"
	"fmt"

	"github.com/spf13/cobra"

	"footplank/layout/plan"
)

// keeping is where a command writes the plan that it made, if anywhere.
type keeping struct {
	save, toOut, force bool
	out                string
}

// flags adds the flags that say so; saved and written are what --save and --out
// do.
func (k *keeping) flags(c *cobra.Command, saved, written string) {
	f := c.Flags()
	f.BoolVar(&k.save, "save", false, saved)
	f.StringVar(&k.out, "out", "", written)
	f.BoolVar(&k.force, "force", false, "let --out replace a file that is there already")
	completeFlag(c, "out", endingIn("toml"))
}

// wanted reports whether the plan is to be written.
func (k *keeping) wanted() bool { return k.save || k.toOut }

// validate looks, before the work begins, whether the plan can be written where
// it should go. The plan comes from the file called name.
func (k *keeping) validate(c *cobra.Command, name string) error {
	k.toOut = c.Flags().Changed("out")
	switch {
	case k.save && k.toOut:
		return errors.New("--save and --out both say where the plan goes: give one of them")
	case k.save && name == "-":
		return errors.New("--save has no file to write to: with a plan from standard input give --out FILE")
	case k.save:
		return maySave(name)
	case k.toOut && k.out != "-":
		return mayWrite(k.out, k.force, name)
	}
	return nil
}

// write writes the plan where it should go and returns what to say of it.
func (k *keeping) write(p *program, doc *plan.Doc) (done string, err error) {
	switch {
	case k.save:
		if err := doc.Save(); err != nil {
			if errors.Is(err, plan.ErrChanged) {
				err = fmt.Errorf("%w; it was left as it is: run it again", err)
			}
			return "", err
		}
		return "saved " + doc.Path, nil
	case k.toOut && k.out == "-":
		src, err := doc.Render()
		if err != nil {
			return "", err
		}
		_, err = p.out.Write(src)
		return "", err
	case k.toOut:
		if err := doc.SaveAs(k.out, k.force); err != nil {
			return "", err
		}
		return "wrote " + k.out, nil
	}
	return "", nil
}
