package study

import (
	"context"
	"encoding/json"
	"errors"
	"math"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"foilwright/balance"
	"foilwright/si"
	"foilwright/trim"
)

const (
	sorrel = "../examples/which-foil/sorrel.yaml"
	tansy  = "../examples/which-foil/tansy.yaml"
	sloe   = "../examples/dinghy/sloe.yaml"
)

func open(name string) ([]byte, error) { return os.ReadFile(filepath.FromSlash(name)) }

func ask(t *testing.T, q Question, boats ...string) *Result {
	t.Helper()
	r, err := Run(t.Context(), Request{Boats: boats, Question: q, Open: open, Workers: 2})
	if err != nil {
		t.Fatal(err)
	}
	return r
}

func refused(t *testing.T, want string, q Question, boats ...string) {
	t.Helper()
	_, err := Run(t.Context(), Request{Boats: boats, Question: q, Open: open})
	if err == nil || !strings.Contains(err.Error(), want) {
		t.Errorf("error %v, want %q", err, want)
	}
}

// The fingerprint follows the boats and the question, and nothing else.
func TestFingerprint(t *testing.T) {
	q := func(heel float64) *Levers { return &Levers{Stance: Stance{Heel: si.Angle(heel)}} }
	first := ask(t, q(0), sorrel).Fingerprint
	if ask(t, q(0), sorrel).Fingerprint != first {
		t.Error("the same question about the same boat has another fingerprint")
	}
	for what, other := range map[string]string{
		"heel": ask(t, q(0.01), sorrel).Fingerprint, "boat": ask(t, q(0), tansy).Fingerprint, "verb": ask(t, &Check{}, sorrel).Fingerprint,
	} {
		if other == first {
			t.Errorf("another %s has the same fingerprint", what)
		}
	}
}

// What counts as leeward turns with the wind, and nothing else does.
func TestLeversOnEitherTack(t *testing.T) {
	at := func(windFrom string) BoatLevers {
		crew := "1 m"
		if windFrom == "starboard" {
			crew = "-1 m"
		}
		q := &Levers{Stance: Stance{
			Heel: 3 * si.Degree, Pitch: 1 * si.Degree, Leeway: 2 * si.Degree, WindFrom: windFrom,
			Settings: []Setting{{"leeward cant", "20 deg"}, {"crew y", crew}},
		}}
		return ask(t, q, sorrel).Results.(*LeversResult).Boats[0]
	}
	port, starboard := at("port"), at("starboard")
	if port.Foil != "starboard main" || starboard.Foil != "port main" {
		t.Errorf("leeward foils are %s and %s", port.Foil, starboard.Foil)
	}
	for _, c := range [][2]float64{
		{port.Lever, starboard.Lever}, {port.RightingMoment, starboard.RightingMoment}, {port.WettedArea, starboard.WettedArea},
		{port.Centre.Y, -starboard.Centre.Y}, {port.CentreOfGravity.Z, starboard.CentreOfGravity.Z},
	} {
		if math.Abs(c[0]-c[1]) > 1e-9*math.Abs(c[0]) {
			t.Errorf("port %v, starboard %v", c[0], c[1])
		}
	}
	if port.Lever < 1 || math.Abs(port.RightingMoment-port.Weight*port.Lever) > 1e-9*port.RightingMoment {
		t.Errorf("lever %v m, righting moment %v N·m of %v N", port.Lever, port.RightingMoment, port.Weight)
	}
	sum := 0.0
	for _, w := range port.Weights {
		sum += w.Moment
	}
	if math.Abs(sum-port.RightingMoment) > 1e-9*sum {
		t.Errorf("weights one by one right by %v N·m, together by %v", sum, port.RightingMoment)
	}
}

// A boat in her best trim and the same state towed have the same loads in the water.
func TestTowAgreesWithTrim(t *testing.T) {
	best := ask(t, &Trim{Sailing: Sailing{WindSpeeds: []si.Speed{7}, WindAngles: []si.Angle{90 * si.Degree}, Conditions: Standard()}}, sloe).Results.([]*trim.Result)[0]
	if best.Answer != trim.Found {
		t.Fatal(best.Reason)
	}
	ride := best.RideHeight
	q := &Tow{Speed: best.Speed, Conditions: Standard(), Stance: Stance{Heel: best.Heel, Pitch: best.Pitch, Leeway: best.Leeway, Ride: &ride}}
	for _, c := range best.Controls {
		if c.State != "not in use" {
			unit := map[string]string{"rad": " rad", "m": " m", "1": ""}[c.Unit]
			text, err := json.Marshal(c.Value)
			if err != nil {
				t.Fatal(err)
			}
			q.Settings = append(q.Settings, Setting{c.Name, string(text) + unit})
		}
	}
	towed := ask(t, q, sloe).Results.(*TowResult)
	if got, want := towed.Drag.Water(), best.Drag.Water(); math.Abs(got-want) > 1e-6*want {
		t.Errorf("drag towed %v N, in the best trim %v N", got, want)
	}
	// In balance: water, buoyancy, weight and air close.
	vertical := towed.Total.Water.Force.Z + towed.Total.Buoyancy.Force.Z
	for _, l := range best.Loads {
		if l.Item == "weight" || strings.HasPrefix(l.Item, "sail") || l.Item == "windage" {
			vertical += l.Force.Z
		}
	}
	if math.Abs(vertical) > 1e-6*best.Weight {
		t.Errorf("water, weight and air leave %v N vertical", vertical)
	}
}

// A part that is towed alone is the boat without the others; both halves of a
// pair have one kind.
func TestTowAlone(t *testing.T) {
	q := func(only string) *Tow {
		return &Tow{Speed: 15, Only: only, Conditions: Standard(), Stance: Stance{Leeway: 1 * si.Degree}}
	}
	alone := ask(t, q("leeward main"), sorrel).Results.(*TowResult)
	for _, l := range alone.Loads {
		if l.Part == "rudder" || strings.HasPrefix(l.Part, "port") {
			t.Errorf("%s is in the water", l.Part)
		}
	}
	pair := ask(t, q("main"), sorrel).Results.(*TowResult)
	if len(pair.Loads) < len(alone.Loads) {
		t.Errorf("the pair has %d loads, one of it %d", len(pair.Loads), len(alone.Loads))
	}
	bulb := 0
	for _, l := range alone.Loads {
		if l.Item == "bodies" {
			bulb++
		}
	}
	if bulb != 1 {
		t.Errorf("%d bulbs are towed with one foil", bulb)
	}
	refused(t, `there is no part "keel"`, q("keel"), sorrel)
}

// The budget closes about any point that is named.
func TestBudgetAboutAnyPoint(t *testing.T) {
	q := func(about *Across) *Trim {
		return &Trim{About: about, Sailing: Sailing{WindSpeeds: []si.Speed{7}, WindAngles: []si.Angle{90 * si.Degree}, Conditions: Standard()}}
	}
	last := 0.0
	for _, about := range []*Across{nil, {Y: 0, Z: 0}, {Y: 1.2, Z: -0.5}} {
		r := ask(t, q(about), sloe).Results.([]*trim.Result)[0]
		if math.Abs(r.RightingMoment-r.HeelingMoment) > 1e-6*r.Weight {
			t.Errorf("about %v: righting %v, heeling %v N·m", about, r.RightingMoment, r.HeelingMoment)
		}
		if r.RightingMoment == last {
			t.Errorf("about %v: the righting moment does not depend on the point", about)
		}
		last = r.RightingMoment
	}
}

// A foil and a sail of one name have rows of their own, and the totals are the
// rows' sums.
func TestBudgetKeepsSailsAndWindageApart(t *testing.T) {
	r := ask(t, &Trim{Sailing: Sailing{WindSpeeds: []si.Speed{7}, WindAngles: []si.Angle{90 * si.Degree}, Conditions: Standard()}}, sloe).Results.([]*trim.Result)[0]
	var kinds []string
	righting, heeling := 0.0, 0.0
	for _, row := range r.Budget.Rows {
		if row.Part == "main" {
			kinds = append(kinds, row.Kind)
		}
		if row.Heeling == balance.Heels {
			heeling += row.Moment
		} else {
			righting += row.Moment
		}
	}
	for _, want := range []string{"weight", "water", "sails", "windage"} {
		if !slices.Contains(kinds, want) {
			t.Errorf("what is called main has rows of %v, not of %s", kinds, want)
		}
	}
	if math.Abs(righting-r.RightingMoment) > 1e-9*righting || math.Abs(heeling-r.HeelingMoment) > 1e-9*heeling {
		t.Errorf("rows add up to %v and %v N·m, the totals are %v and %v", righting, heeling, r.RightingMoment, r.HeelingMoment)
	}
}

func TestCancelled(t *testing.T) {
	ctx, cancel := context.WithCancel(t.Context())
	cancel()
	_, err := Run(ctx, Request{Boats: []string{sloe}, Open: open, Question: &Trim{Sailing: Sailing{WindSpeeds: []si.Speed{7}}}})
	if err == nil {
		t.Error("a cancelled study has an answer")
	}
	_, err = Run(ctx, Request{Boats: []string{sloe}, Open: open, Question: &Trim{Sailing: Sailing{WindSpeeds: []si.Speed{7}, Conditions: Standard()}}})
	if !errors.Is(err, context.Canceled) {
		t.Errorf("error %v, want that it was cancelled", err)
	}
}

func TestProgressCountsToTheEnd(t *testing.T) {
	most, of := 0, 0
	r, err := Run(t.Context(), Request{
		Boats: []string{sloe}, Open: open, Workers: 1,
		Question: &Trim{Sailing: Sailing{WindSpeeds: []si.Speed{6.5, 7}, WindAngles: []si.Angle{90 * si.Degree}, Conditions: Standard()}},
		Progress: func(done, all int) { most, of = max(most, done), all },
	})
	if err != nil || r.Verdict != Answered {
		t.Fatal(err, r)
	}
	if most != 2 || of != 2 {
		t.Errorf("progress ended at %d of %d", most, of)
	}
}
