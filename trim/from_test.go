package trim

import (
	"math"
	"testing"

	"foilwright/boat"
	"foilwright/foil"
	"foilwright/si"
)

// Searched from its own answer alone a request is answered the same in fewer
// evaluations; an answer of the other tack is no start.
func TestFromAnAnswer(t *testing.T) {
	job := easy(t)
	cold := found(t, job.Boat, job.Request)
	r := job.Request
	r.From, r.Starts = cold, OnlyFrom
	warm := found(t, job.Boat, r)
	if change := math.Abs(float64(warm.Speed/cold.Speed) - 1); change > 1e-6 {
		t.Errorf("speed changes by %.1e of itself when searched from its own answer", change)
	}
	if warm.Search.Starts != 1 || warm.Search.Evaluations >= cold.Search.Evaluations {
		t.Errorf("from the answer %d evaluations, from afresh %d", warm.Search.Evaluations, cold.Search.Evaluations)
	}
	near := r
	near.WindAngle += 2 * si.Degree
	if res := found(t, job.Boat, near); res.TrueWindAngle != near.WindAngle {
		t.Errorf("asked at %v the answer is at %v", near.WindAngle, res.TrueWindAngle)
	}
	r.WindFrom = boat.Starboard
	if r.from(job.Boat) != nil {
		t.Error("an answer of the other tack is taken as a start")
	}
	r = job.Request
	r.From = cold
	p, err := newProblem(job.Boat, &r, mustWay(t, job.Boat, &r), new(level))
	if err != nil {
		t.Fatal(err)
	}
	if n := len(p.starts()); n != 2 {
		t.Errorf("an answer and one start are %d starts", n)
	}
}

func mustWay(t *testing.T, b *boat.Boat, r *Request) way {
	t.Helper()
	all, err := ways(b, r)
	if err != nil {
		t.Fatal(err)
	}
	return all[0]
}

// A request for shortfalls alone relaxes no limit.
func TestShortfallsAlone(t *testing.T) {
	job := easy(t)
	job.Request.WindSpeed, job.Request.Why = 1.5, Shortfalls
	res, err := Best(t.Context(), job.Boat, job.Request, nil)
	if err != nil {
		t.Fatal(err)
	}
	if res.Answer != NoAnswer || len(res.Reason.Shortfalls) == 0 || res.Reason.Words == "" {
		t.Fatalf("in 1.5 m/s of wind: %v, %+v", res.Answer, res.Reason)
	}
	if res.Reason.Limit != "" || len(res.Reason.Relaxations) > 0 {
		t.Errorf("limits were relaxed: %q, %v", res.Reason.Limit, res.Reason.Relaxations)
	}
}

// From an answer alone, ways that came within 5 % of it are searched again, others
// are not; where none of those allowed did, all are.
func TestWaysNearAnAnswer(t *testing.T) {
	b := monohull(t)
	r := usual(17)
	all, err := ways(b, &r)
	if err != nil {
		t.Fatal(err)
	}
	way := all[0]
	own := &Result{Mode: way.mode.Name, Set: setName(b, way.set), VMG: 8, Speed: 12, Aim: Windward.String()}
	if !own.cameNear(b, &way) {
		t.Error("an answer's own way is not near it")
	}
	for _, c := range []struct {
		aim        Aim
		vmg, speed si.Speed
		near       bool
	}{{Windward, 7.7, 11, true}, {Windward, 7.5, 12, false}, {Leeward, -7.7, 20, true}, {AtAngle, 8, 11.5, true}, {AtAngle, 8, 11.3, false}} {
		other := &Result{
			Mode: "elsewhere", Set: own.Set, VMG: 8, Speed: 12, Aim: c.aim.String(),
			Others: []Optimum{{Mode: way.mode.Name, Set: own.Set, VMG: c.vmg, Speed: c.speed}},
		}
		if got := other.cameNear(b, &way); got != c.near {
			t.Errorf("%v: an optimum of progress %.1f and speed %.1f beside 8 and 12 counts as near: %v", c.aim, float64(c.vmg), float64(c.speed), got)
		}
	}
}

// A request that says nothing of the foils is surveyed and sketched under the same
// water surface as one that asks for the default in words.
func TestSurveyUnderTheSameWater(t *testing.T) {
	b := monohull(t)
	silent := usual(17)
	spoken := silent
	spoken.Foil = foil.DefaultOptions()
	for _, r := range []Request{silent, spoken} {
		coarse, worthwhile := r.coarsely()
		if !worthwhile || coarse.Foil.Boundary != foil.DefaultOptions().Boundary {
			t.Errorf("asked for %+v, surveyed as %+v", r.Foil, coarse.Foil)
		}
		p, err := newSearch(b, &r, mustWay(t, b, &r), &level{}, tight(), &Workspace{})
		if err != nil {
			t.Fatal(err)
		}
		k, err := sketchOf(p, p.drawn)
		if err != nil {
			t.Fatal(err)
		}
		if got := k.here.Foil.Options.Boundary; got != foil.DefaultOptions().Boundary {
			t.Errorf("asked for %+v, sketched under boundary %v", r.Foil, got)
		}
	}
	one, other := found(t, b, silent), found(t, b, spoken)
	if one.Speed != other.Speed || one.Search != other.Search {
		t.Errorf("%v in %+v, in words %v in %+v", one.Speed, one.Search, other.Speed, other.Search)
	}
}

// A way of sailing that has come near, but whose steps ran out on coarse strips, is followed on
// with what was known of it.
func TestStepsRunOutOnCoarseStrips(t *testing.T) {
	b := readExample(t, "../examples/which-foil/sorrel.yaml")
	r := usual(17)
	r.Mode, r.Aim, r.Why = "one foil", AtAngle, Shortfalls
	for _, begin := range []float64{90, 92, 94, 96} {
		r.WindAngle = si.Angle(begin) * si.Degree
		from := found(t, b, r)
		for patience := 1; patience <= 8; patience++ {
			on := r
			on.WindAngle, on.From, on.Starts, on.Patience = r.WindAngle+8*si.Degree, from, OnlyFrom, patience
			if _, err := Best(t.Context(), b, on, nil); err != nil {
				t.Error(err)
			}
		}
	}
}
