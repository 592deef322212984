package main

import (
	"context"
	"errors"
	"flag"
	"fmt"
	"io"
	"os"
	"path/filepath"
	"strings"
	"time"

	"footplank/pack"
)

// Exit codes.
const (
	exitFine        = 0
	exitWrong       = 1 // an arrangement failed its check, or writing failed
	exitUsage       = 2 // bad usage or a bad file
	exitInterrupted = 130
)

const usage = `usage: packbench [-seconds S] [-seed N] [-turn] [-placements DIR] FILES...
       packbench -boards N [-seconds S] [-seed K]

Prints for each file: instance, kind, items, answer, proved, known answer, gap
in percent, seconds; separated by tabs.
`

type config struct {
	seconds    float64
	seed       int64
	turn       bool
	placements string
	boards     int
	files      []string
}

func run(ctx context.Context, args []string, out, errs io.Writer) int {
	cfg, err := parse(args, errs)
	if errors.Is(err, flag.ErrHelp) {
		return exitFine
	}
	if err != nil {
		fmt.Fprintf(errs, "packbench: %v\n%s", err, usage)
		return exitUsage
	}
	if cfg.boards > 0 {
		return runBoards(ctx, cfg, out, errs)
	}
	return runFiles(ctx, cfg, out, errs)
}

func parse(args []string, errs io.Writer) (config, error) {
	var cfg config
	fs := flag.NewFlagSet("packbench", flag.ContinueOnError)
	fs.SetOutput(io.Discard)
	fs.Float64Var(&cfg.seconds, "seconds", 5, "seconds for each instance")
	fs.Int64Var(&cfg.seed, "seed", 1, "seed of the random choices")
	fs.BoolVar(&cfg.turn, "turn", false, "rectangles may be turned")
	fs.StringVar(&cfg.placements, "placements", "", "folder to write arrangements to")
	fs.IntVar(&cfg.boards, "boards", 0, "number of planted boards")
	if err := fs.Parse(args); err != nil {
		if errors.Is(err, flag.ErrHelp) {
			fmt.Fprint(errs, usage)
			fs.SetOutput(errs)
			fs.PrintDefaults()
		}
		return cfg, err
	}
	cfg.files = fs.Args()
	switch {
	case !(cfg.seconds > 0 && cfg.seconds <= 1e6):
		return cfg, fmt.Errorf("-seconds %v: want more than 0, up to a million", cfg.seconds)
	case cfg.boards < 0:
		return cfg, fmt.Errorf("-boards %d: want a number of boards", cfg.boards)
	case cfg.boards > 0 && (len(cfg.files) > 0 || cfg.turn || cfg.placements != ""):
		return cfg, errors.New("-boards goes with -seconds and -seed only")
	case cfg.boards == 0 && len(cfg.files) == 0:
		return cfg, errors.New("no files")
	}
	return cfg, nil
}

func (cfg config) limit() time.Duration { return time.Duration(cfg.seconds * float64(time.Second)) }

// named is an instance and the name that its lines and files carry.
type named struct {
	name string
	*pack.Instance
}

// readAll reads all files before anything is solved, so that a bad one is
// told at once.
func readAll(cfg config) ([]named, error) {
	var list []named
	var errs []error
	from := map[string]string{}
	for _, path := range cfg.files {
		in, err := readOne(path)
		if err != nil {
			errs = append(errs, err)
			continue
		}
		name := strings.TrimSuffix(filepath.Base(path), filepath.Ext(path))
		if other, dup := from[name]; dup && cfg.placements != "" {
			errs = append(errs, fmt.Errorf("%s and %s would both write %s.txt", other, path, name))
			continue
		}
		from[name] = path
		for i := range in.Rects {
			in.Rects[i].Turn = cfg.turn
		}
		list = append(list, named{name, in})
	}
	return list, errors.Join(errs...)
}

func readOne(path string) (*pack.Instance, error) {
	f, err := os.Open(path)
	if err != nil {
		return nil, err
	}
	defer f.Close()
	return pack.ReadInstance(f, path)
}

func runFiles(ctx context.Context, cfg config, out, errs io.Writer) int {
	list, err := readAll(cfg)
	if at, there := os.Stat(cfg.placements); there == nil && !at.IsDir() { // before anything is solved
		err = errors.Join(err, fmt.Errorf("-placements %s: is a file, want a folder, there or to be made", cfg.placements))
	}
	if err != nil {
		fmt.Fprintf(errs, "packbench: %s\n", strings.ReplaceAll(err.Error(), "\n", "\npackbench: "))
		return exitUsage
	}
	for _, in := range list {
		if ctx.Err() != nil {
			return exitInterrupted
		}
		sol, err := solve(ctx, cfg, in)
		if err == nil {
			err = report(cfg, in, sol, out)
		}
		if err != nil {
			fmt.Fprintf(errs, "packbench: %s: %v\n", in.name, err)
			return exitWrong
		}
	}
	if ctx.Err() != nil {
		return exitInterrupted
	}
	return exitFine
}

// solution is what is known of one instance after its time.
type solution struct {
	w, h    int64 // the container of the places
	places  []pack.RectPlace
	answer  string
	size    int64 // the side or height found, 0 if none
	proved  bool
	seconds float64
}

func solve(ctx context.Context, cfg config, in named) (solution, error) {
	ctx, cancel := context.WithTimeout(ctx, cfg.limit())
	defer cancel()
	opt := pack.Options{Seed: cfg.seed}
	start := time.Now()
	sol, err := ask(ctx, opt, in)
	sol.seconds = time.Since(start).Seconds()
	return sol, err
}

func ask(ctx context.Context, opt pack.Options, in named) (solution, error) {
	if in.Kind == pack.ContainerKind {
		a, err := pack.FitRects(ctx, in.W, in.H, in.Rects, opt)
		return solution{
			w: in.W, h: in.H, places: a.Places,
			answer: a.Verdict.String(), proved: a.Verdict != pack.Undecided,
		}, err
	}
	var c pack.Container
	var err error
	if in.Kind == pack.SquareKind {
		c, err = pack.LeastSquare(ctx, in.Rects, opt)
	} else {
		c, err = pack.LeastHeight(ctx, in.W, in.Rects, opt)
	}
	if errors.Is(err, pack.ErrNothingFound) {
		if ctx.Err() == nil { // not for want of time
			return solution{answer: pack.Impossible.String(), proved: true}, nil
		}
		return solution{answer: pack.Undecided.String()}, nil
	}
	return solution{
		w: c.W, h: c.H, places: c.Places,
		answer: fmt.Sprint(c.H), size: c.H, proved: c.Proved,
	}, err
}

// report checks a solution and prints its line and, if wanted, its places.
func report(cfg config, in named, sol solution, out io.Writer) error {
	if sol.places != nil {
		if err := verifyRects(sol.w, sol.h, in.Rects, sol.places); err != nil {
			return fmt.Errorf("the arrangement found is wrong: %w", err)
		}
		if cfg.placements != "" {
			if err := writePlaces(cfg.placements, in, sol.places); err != nil {
				return err
			}
		}
	}
	known, gap := "-", "-"
	switch {
	case in.Known > 0 && in.Kind != pack.ContainerKind:
		known = fmt.Sprint(in.Known)
		if sol.size > 0 && !cfg.turn {
			gap = fmt.Sprintf("%.2f", 100*float64(sol.size-in.Known)/float64(in.Known))
		}
	case in.KnownAnswer() != pack.Undecided:
		known = in.KnownAnswer().String()
	}
	proved := "no"
	if sol.proved {
		proved = "yes"
	}
	_, err := fmt.Fprintf(out, "%s\t%s\t%d\t%s\t%s\t%s\t%s\t%.3f\n",
		in.name, in.Kind, len(in.Rects), sol.answer, proved, known, gap, sol.seconds)
	return err
}

// writePlaces writes "x y w h" a rectangle, in input order.
func writePlaces(dir string, in named, places []pack.RectPlace) error {
	if err := os.MkdirAll(dir, 0o777); err != nil {
		return err
	}
	var b strings.Builder
	for i, p := range places {
		w, h := in.Rects[i].W, in.Rects[i].H
		if p.Turned {
			w, h = h, w
		}
		fmt.Fprintf(&b, "%d %d %d %d\n", p.X, p.Y, w, h)
	}
	return os.WriteFile(filepath.Join(dir, in.name+".txt"), []byte(b.String()), 0o666)
}
