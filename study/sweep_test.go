package study

import (
	"context"
	"encoding/json"
	"errors"
	"math"
	"strings"
	"testing"

	"foilwright/si"
)

func sweeping(over string) *Sweep {
	return &Sweep{Tow: Tow{Speed: 15, Conditions: Standard(), Stance: Stance{Leeway: 1 * si.Degree}}, Over: over}
}

// A state of a sweep is the same state towed by itself; one goroutine or two,
// the same bits.
func TestSweepAgreesWithTow(t *testing.T) {
	q := sweeping("cant 8 to 22 deg by 7")
	r := ask(t, q, sorrel)
	swept := r.Results.(*SweepResult)
	if len(swept.Points) != 3 || swept.Variable != "leeward main cant" || swept.Foil != "starboard main" {
		t.Fatalf("%d points over %q, carried by %q", len(swept.Points), swept.Variable, swept.Foil)
	}
	alone := q.Tow
	alone.Settings = []Setting{{"leeward cant", "15 deg"}}
	towed := ask(t, &alone, sorrel).Results.(*TowResult)
	p := swept.Points[1]
	for _, c := range [][2]float64{
		{p.Forces.Up, towed.Total.Water.Force.Z}, {p.Forces.Windward, towed.Total.Water.Force.Y}, {p.Forces.Drag, towed.Drag.Water()},
		{p.WettedArea, towed.WettedArea}, {p.Centre.Y, towed.Centres[0].Loaded.Y}, {p.Hinges[0].Moment, towed.Hinges[0].Moment},
	} {
		if math.Abs(c[0]-c[1]) > 1e-9*math.Abs(c[1]) {
			t.Errorf("in a sweep %v, alone %v", c[0], c[1])
		}
	}
	one, err := Run(t.Context(), Request{Boats: []string{sorrel}, Question: sweeping("cant 8 to 22 deg by 7"), Open: open, Workers: 1})
	if err != nil {
		t.Fatal(err)
	}
	a, _ := json.Marshal(r)
	b, _ := json.Marshal(one)
	if string(a) != string(b) {
		t.Error("one goroutine and two differ")
	}
}

// With the wind from the other side, windward and leeward are the same words for
// the mirror image.
func TestSweepOnEitherTack(t *testing.T) {
	at := func(windFrom, crew string) SweepPoint {
		q := sweeping("heel -3, 2 deg")
		q.WindFrom, q.Settings = windFrom, []Setting{{"crew y", crew}}
		return ask(t, q, sorrel).Results.(*SweepResult).Points[0]
	}
	port, starboard := at("port", "1 m"), at("starboard", "-1 m")
	for _, c := range [][2]float64{
		{port.Forces.Windward, starboard.Forces.Windward}, {port.Forces.Up, starboard.Forces.Up}, {*port.LineLeeward, *starboard.LineLeeward},
		{port.Heel.Radians(), -starboard.Heel.Radians()}, {port.Centre.Y, -starboard.Centre.Y}, {*port.Cavitation, *starboard.Cavitation},
	} {
		if math.Abs(c[0]-c[1]) > 1e-8*math.Abs(c[0]) {
			t.Errorf("port %v, starboard %v", c[0], c[1])
		}
	}
}

// What can be swept over, as a person may write it.
func TestSweepVariables(t *testing.T) {
	for over, want := range map[string]string{
		"speed 10..20 kn by 5": "speed", "ride 0.5, 1 m": "ride height", "pitch=-1 to 1 deg by 1": "pitch", "leeward flap -2 to 2 deg by 1": "leeward main flap",
		"windward main rake 0, 1 deg": "windward main rake", "leeway −1 to 1 deg by 0.5": "leeway", "crew  y 0 to 1 m by 0.5": "crew y",
	} {
		q := sweeping(over)
		q.Leeway = 0
		if want == "speed" {
			q.Speed = 0
		}
		r := ask(t, q, sorrel).Results.(*SweepResult)
		if r.Variable != want || len(r.Points) < 2 {
			t.Errorf("%s is a sweep over %q of %d points", over, r.Variable, len(r.Points))
		}
	}
	for over, want := range map[string]string{
		"": "is not a variable with its values", "10 deg": "is not a variable", "cant 1 ± 0.1 deg": "has a spread", "speed 1, 2 kn": "set to one value besides",
		"ride 60, 70 m": "ride height: 60.0 m is outside", "cant 0 to 25 deg by -1": "leads nowhere",
	} {
		if _, err := Run(t.Context(), Request{Boats: []string{sorrel}, Question: sweeping(over), Open: open}); err == nil || !strings.Contains(err.Error(), want) {
			t.Errorf("%q: error %v, want %q", over, err, want)
		}
	}
}

// States without a foil in the water are points that say so.
func TestSweepOutOfTheWater(t *testing.T) {
	r := ask(t, sweeping("ride 1, 2.5, 3 m"), sorrel).Results.(*SweepResult)
	for i, want := range []string{"", "rudder is out of the water; the tip of leeward main outer wing is out", "nothing is in the water"} {
		if got := strings.Join(r.Points[i].Notes, "; "); got != want {
			t.Errorf("at %v m: %q, want %q", r.Points[i].Value, got, want)
		}
	}
	if p := r.Points[2]; p.Forces != nil || p.Centre != nil || p.Cavitation != nil || p.LineLeeward != nil {
		t.Errorf("a dry boat has figures: %+v", p)
	}
}

func TestSweepCancelled(t *testing.T) {
	ctx, cancel := context.WithCancel(t.Context())
	cancel()
	if _, err := Run(ctx, Request{Boats: []string{sorrel}, Question: sweeping("cant 8, 9 deg"), Open: open}); !errors.Is(err, context.Canceled) {
		t.Errorf("error %v, want that it was cancelled", err)
	}
}
