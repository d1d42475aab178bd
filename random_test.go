package foilwright_test

import (
	"context"
	"flag"
	"fmt"
	"math"
	"math/rand/v2"
	"path/filepath"
	"runtime"
	"testing"

	"foilwright/boat"
	"foilwright/si"
	"foilwright/trim"
)

// How many boats and winds are drawn at random, over all examples that sail:
//
//	GOEXPERIMENT=simd go test -run TestRandomBoatsAndWinds -random-winds 2000 -timeout 3h -v .
var randomWinds = flag.Int("random-winds", 5, "boats with winds and aims drawn at random around the examples")

// drawn is one random boat with what is asked about it.
type drawn struct {
	boat    *boat.Boat
	request trim.Request
	words   string
}

// drawAll draws boats around the examples in turn, each with a wind and an aim.
func drawAll(t *testing.T, n int) []drawn {
	t.Helper()
	source := rand.New(rand.NewPCG(5, 2026))
	examples := append([]string{"examples/twenty-metre/hawthorn.yaml", "examples/dinghy/spindle.yaml"}, sailed...)
	all := make([]drawn, n)
	for i := range all {
		name := examples[i%len(examples)]
		b, err := fetched(t, name, shaken(source, 0.08))
		for tries := 0; err != nil && tries < 20; tries++ { // a sail larger than its triangle allows is no boat
			b, err = fetched(t, name, shaken(source, 0.08))
		}
		if err != nil {
			t.Fatalf("%s: %v", name, err)
		}
		r := request(6 + 18*source.Float64())
		switch r.Aim = trim.Aim(source.IntN(3)); r.Aim {
		case trim.AtAngle:
			r.WindAngle = si.Angle(45+105*source.Float64()) * si.Degree
		}
		all[i] = drawn{b, r, fmt.Sprintf("draw %d, %s, %s at %.0f deg in %.2f kn", i, filepath.Base(name), r.Aim, r.WindAngle.Degrees(), r.WindSpeed.Knots())}
	}
	return all
}

// Every boat in every wind is balanced inside its limits, or there is a true reason why it
// is not: the limit that is named lets it sail when it is relaxed, or, where none does
// alone, random starts find nothing either.
func TestRandomBoatsAndWinds(t *testing.T) {
	all := drawAll(t, *randomWinds)
	faults, sail := make([]string, len(all)), make([]bool, len(all))
	err := trim.Steps(t.Context(), len(all), runtime.GOMAXPROCS(0), func(ctx context.Context, i int, w *trim.Workspace) error {
		res, err := trim.Best(ctx, all[i].boat, all[i].request, w)
		if err != nil {
			return fmt.Errorf("%s: %w", all[i].words, err)
		}
		if sail[i] = res.Answer == trim.Found; sail[i] {
			faults[i] = unbalanced(res)
			return nil
		}
		faults[i], err = untrue(ctx, &all[i], res, w)
		return err
	}, nil)
	if err != nil {
		t.Fatal(err)
	}
	wrong, flew := 0, 0
	for i, f := range faults {
		if sail[i] {
			flew++
		}
		if f != "" {
			wrong++
			t.Logf("%s: %s", all[i].words, f)
		}
	}
	t.Logf("%d of %d sail, %d neither sail nor have a true reason", flew, len(all), wrong)
	if 1000*wrong > len(all) {
		t.Errorf("%d of %d neither sail nor have a true reason, one in a thousand may", wrong, len(all))
	}
}

// unbalanced tells what an answer misses of the equations and limits; empty for nothing.
func unbalanced(res *trim.Result) string {
	force, moment := res.ResidualForce.Norm()/res.Weight, res.ResidualMoment.Norm()/res.Weight
	if !(force <= 1e-8 && moment <= 1e-7) {
		return fmt.Sprintf("the sums are left at %.1e of the weight and %.1e m of it", force, moment)
	}
	for _, l := range res.Limits {
		size := math.Max(1, math.Abs(l.Value))
		if l.Margin < -1e-6*size {
			return fmt.Sprintf("%s is missed by %.1e %s", l.Name, -l.Margin, l.Unit)
		}
	}
	return ""
}

// untrue tells what is wrong with the reason of a boat that does not sail.
func untrue(ctx context.Context, d *drawn, res *trim.Result, w *trim.Workspace) (string, error) {
	if res.Reason == nil || res.Reason.Words == "" {
		return "no reason is told", nil
	}
	again := d.request
	if limit := res.Reason.Limit; limit != "" {
		again.Relaxed = []string{limit}
		res, err := trim.Best(ctx, d.boat, again, w)
		if err == nil && res.Answer != trim.Found {
			return fmt.Sprintf("without %q, the reason, she does not sail either", limit), nil
		}
		return "", err
	}
	if len(res.Reason.Shortfalls) == 0 {
		return "neither a limit nor a shortfall is told", nil
	}
	again.Starts, again.Scatter, again.Why = 6, 2026, trim.Shortfalls
	other, err := trim.Best(ctx, d.boat, again, w)
	if err == nil && other.Answer == trim.Found {
		return fmt.Sprintf("she sails after all, at %.1f kn, found from random starts", other.Speed.Knots()), nil
	}
	return "", err
}
