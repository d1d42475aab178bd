package trim

import (
	"math"
	"strings"
	"testing"

	"foilwright/boat"
	"foilwright/foil"
	"foilwright/frame"
	"foilwright/si"
)

func found(t *testing.T, b *boat.Boat, r Request) *Result {
	t.Helper()
	res, err := Best(t.Context(), b, r, nil)
	if err != nil {
		t.Fatal(err)
	}
	if res.Answer != Found {
		t.Fatalf("%s has no answer: %+v", b.Name, res.Reason)
	}
	return res
}

// Ten random starts: none leads to more progress than the usual ones by 0.05 %,
// most lead to the same, and optima that differ are reported, not removed.
func TestRandomStarts(t *testing.T) {
	b := monohull(t)
	usually := found(t, b, usual(17))
	r := usual(17)
	r.Scatter, r.Starts = 2026, 10
	scattered := found(t, b, r)
	if gain := float64(scattered.VMG/usually.VMG) - 1; math.Abs(gain) > agreement {
		t.Errorf("ten random starts lead to %.5f m/s, the usual ones to %.5f", scattered.VMG, usually.VMG)
	}
	t.Logf("%d of %d random starts reach the answer; other optima: %+v", scattered.Search.Agreeing, scattered.Search.Starts, scattered.Others)
	if scattered.Search.Agreeing < 5 {
		t.Errorf("%d of 10 random starts reach the answer, want most", scattered.Search.Agreeing)
	}
	others := 0
	for _, o := range scattered.Others {
		others += o.Times
	}
	if others+scattered.Search.Agreeing < scattered.Search.Converged {
		t.Errorf("%d starts converged, %d to the answer and %d to reported optima: some are missing", scattered.Search.Converged, scattered.Search.Agreeing, others)
	}
}

// Doubling the strips changes the best progress by less than 0.05 %.
func TestBestSpeedOnTwiceTheStrips(t *testing.T) {
	b := monohull(t)
	coarse := found(t, b, usual(17))
	r := usual(17)
	r.Foil, r.Starts = foil.DefaultOptions(), 1
	r.Foil.Strips *= 2
	fine := found(t, b, r)
	change := float64(fine.VMG/coarse.VMG) - 1
	t.Logf("progress changes by %+.4f %% on twice the strips", 100*change)
	if math.Abs(change) > agreement {
		t.Errorf("progress changes by %+.4f %% on twice the strips", 100*change)
	}
}

// The same request gives the same bits, whatever the workspace did before.
func TestSameRequestSameBits(t *testing.T) {
	b, w := monohull(t), &Workspace{}
	r := usual(15)
	r.Starts = 1
	first, err := Best(t.Context(), b, r, w)
	if err != nil {
		t.Fatal(err)
	}
	other := usual(19)
	other.Starts = 1
	if _, err := Best(t.Context(), b, other, w); err != nil {
		t.Fatal(err)
	}
	second, err := Best(t.Context(), b, r, w)
	if err != nil {
		t.Fatal(err)
	}
	if first.Speed != second.Speed || first.TrueWindAngle != second.TrueWindAngle || first.ResidualMoment != second.ResidualMoment {
		t.Errorf("speed %v, then %v", first.Speed, second.Speed)
	}
}

// A boat that cannot fly says what stands in the way, and what it says is true.
func TestNoAnswerHasAReason(t *testing.T) {
	b := monohull(t)
	b.Limits = append(b.Limits, boat.Limit{Kind: boat.LimitSpeed, Lower: 0, Upper: 6})
	r := usual(17)
	r.Starts = 1
	res, err := Best(t.Context(), b, r, nil)
	if err != nil {
		t.Fatal(err)
	}
	if res.Answer != NoAnswer || res.Reason == nil {
		t.Fatalf("at 6 m/s at most the boat flies at %v", res.Speed)
	}
	if !strings.HasPrefix(res.Reason.Words, "no steady flight at true wind 17.0 kn: ") || len(res.Reason.Shortfalls) == 0 {
		t.Errorf("reason %q, shortfalls %v", res.Reason.Words, res.Reason.Shortfalls)
	}
	if res.Reason.Limit == "" {
		t.Fatalf("no limit is named; tried in vain: %v", res.Reason.Relaxations)
	}
	r.Relaxed = []string{res.Reason.Limit}
	if again, err := Best(t.Context(), b, r, nil); err != nil || again.Answer != Found {
		t.Errorf("%q is named as the reason; without it: %v, %v", res.Reason.Limit, again.Answer, err)
	}
}

func TestRequestsThatMeanNothing(t *testing.T) {
	b := monohull(t)
	still, gale, square := usual(0), usual(200), usual(17)
	square.Aim, square.WindAngle = AtAngle, 200*si.Degree
	mode, hold := usual(17), usual(17)
	mode.Mode = "no such"
	hold.Holds = []Hold{{Name: "keel", Value: 1}}
	for want, r := range map[string]Request{
		"Alder: true wind speed: must be above 0\nhint: say the wind with --tws, as in 17 kn":                           still,
		"Alder: true wind speed: must be at most 60 m/s\nhint: check its unit":                                          gale,
		"Alder: true wind angle: must lie between 0 and 180 deg\nhint: angles are taken from the track, on either side": square,
		`Alder: no mode "no such" with set ""; modes: one foil; sets: `:                                                 mode,
		`Alder: nothing called "keel" can be held`:                                                                      hold,
	} {
		_, err := Best(t.Context(), b, r, nil)
		if err == nil || err.Error() != want {
			t.Errorf("error %q, want %q", err, want)
		}
	}
}

// The side force carried at the sails' own centre is their side force; higher
// up it is less, in the sense that the moment about the water's centre stays.
func TestSideForceCarried(t *testing.T) {
	b := monohull(t)
	res := found(t, b, usual(17))
	var total frame.Load[frame.Track]
	for _, l := range res.Loads {
		if isSail(l.Item) {
			total = total.Plus(l.Load)
		}
	}
	low, err := CarriedForce(b, res, 5, nil)
	if err != nil {
		t.Fatal(err)
	}
	high, err := CarriedForce(b, res, 9, nil)
	if err != nil {
		t.Fatal(err)
	}
	if !(low.Force > high.Force) {
		t.Errorf("carried %.0f N at 5 m and %.0f N at 9 m: more height must carry less", low.Force, high.Force)
	}
	// The height at which side force and vertical force, taken at the centre of
	// effort, heel the boat as the sails do.
	c := carrying{}
	c.replaceSails(res)
	own := (c.y*total.Force.Z - total.Moment.X) / total.Force.Y
	mid, err := CarriedForce(b, res, own, nil)
	if err != nil {
		t.Fatal(err)
	}
	if math.Abs(mid.Force/math.Abs(total.Force.Y)-1) > 0.01 {
		t.Errorf("carried %.0f N at the sails' own %.2f m, their side force is %.0f N", mid.Force, own, -total.Force.Y)
	}
}

// Where a limit lets a tip leave the water both sides of the surface are
// searched, and an optimum on the surface is found from both: wherever one
// side's best has its tip on the surface, the other side's is at least as good.
func TestBestTrimAcrossTheSurface(t *testing.T) {
	b := monohull(t)
	for i := range b.Limits {
		if b.Limits[i].Kind == boat.LimitTipDepth {
			b.Limits[i].Lower = -0.6
		}
	}
	b.Modes[0].Ranges[0].Lower, b.Modes[0].Ranges[0].Upper = 0.3, 0.9
	for _, knots := range []float64{14, 20} {
		r := usual(knots)
		r.Starts = 2
		found := everyWay(t, b, &r)
		under, out := bestOn(found, tipsUnder), bestOn(found, tipsMayShow)
		if under == nil || out == nil {
			t.Fatalf("%g kn: one side of the surface has no answer", knots)
		}
		tipUnder, tipOut := under.tip(), out.tip()
		t.Logf("%g kn: tip under water %.4f m deep: %.5f m/s; tip out %.4f m: %.5f m/s", knots, tipUnder, under.progress(), tipOut, out.progress())
		if tipUnder < 1e-6 && out.progress() < under.progress()*(1-onTheKink) {
			t.Errorf("%g kn: from below the best has its tip on the surface, and from above less is found", knots)
		}
		if tipOut > -1.001*showing && under.progress() < out.progress()*(1-onTheKink) {
			t.Errorf("%g kn: from above the best has its tip on the surface, and from below less is found", knots)
		}
	}
}

// everyWay searches every way of sailing for itself from all its starts, so that none is left
// early for being outdone by another.
func everyWay(t *testing.T, b *boat.Boat, r *Request) []attempt {
	t.Helper()
	all, err := ways(b, r)
	if err != nil {
		t.Fatal(err)
	}
	w := &Workspace{}
	var found []attempt
	for _, way := range all {
		p, err := newSearch(b, r, way, &w.fine, tight(), w)
		if err != nil {
			t.Fatal(err)
		}
		for _, start := range p.starts() {
			a, err := p.try(t.Context(), start, w)
			if err != nil {
				t.Fatal(err)
			}
			found = append(found, a)
		}
	}
	return found
}

// onTheKink is by how much progress may differ over the millimetre between the
// two searches.
const onTheKink = 2e-4

func bestOn(attempts []attempt, side tipSide) *attempt {
	var best *attempt
	for i := range attempts {
		a := &attempts[i]
		if a.problem.way.tips == side && a.ok() && (best == nil || a.progress() > best.progress()) {
			best = a
		}
	}
	return best
}

// tip returns the depth of the shallowest tip, m.
func (a *attempt) tip() float64 {
	p := a.problem
	p.state(a.outcome.X, &p.state0)
	least := math.Inf(1)
	for i := range p.rows {
		if r := &p.rows[i]; r.figure == tipDepth {
			least = math.Min(least, -foil.TipHeight(p.boat, &p.state0, r.foil, r.piece, &p.here.Foil))
		}
	}
	return least
}

// The closing set closes: six variables, well conditioned, and the equations met
// to rounding by Newton's method on them.
func TestClosingSet(t *testing.T) {
	res := found(t, monohull(t), usual(17))
	if len(res.Closing) != 6 {
		t.Fatalf("closing set %v, want six variables", res.Closing)
	}
	if !(res.Condition < 1e4) {
		t.Errorf("condition %.2e of the closing set %v", res.Condition, res.Closing)
	}
	if f := res.ResidualForce.Norm() / res.Weight; f > 1e-11 {
		t.Errorf("forces miss by %.1e of weight after polishing", f)
	}
}

func TestStuckInWords(t *testing.T) {
	if got, want := stuckIn([]float64{0, 0, 0.1, 0, 0.5, -0.9}), "nothing that is free moves the boat's pitch and yaw"; got != want {
		t.Errorf("%q, want %q", got, want)
	}
}

// One best trim of the test boat, from all starts.
func BenchmarkBest(b *testing.B) {
	boat, w := monohull(b), &Workspace{}
	for b.Loop() {
		if _, err := Best(b.Context(), boat, usual(17), w); err != nil {
			b.Fatal(err)
		}
	}
}
