package figure

import (
	"strings"
	"testing"

	"foilwright/compare"
	"foilwright/odds"
	"foilwright/polar"
	"foilwright/si"
	"foilwright/study"
	"foilwright/trim"
)

// Two boats' polars on one chart: each keeps her curve and mark, the gain is taken at the
// angles that both sail, and what answers warn of is hatched and told.
func TestTwoBoatsOnOnePolar(t *testing.T) {
	warns := point(110, 20)
	warns.Warnings = []string{"leeward main: flap past its table"}
	none := point(70, 0)
	none.Answer = trim.NoAnswer
	one := answer(&polar.Result{Boat: "Dog Rose", WindFrom: "port", Winds: []polar.Wind{{Speed: 6, Points: []polar.Point{point(50, 14), point(70, 16), point(110, 19)}}}})
	two := answer(&polar.Result{Boat: "Spindle", WindFrom: "port", Winds: []polar.Wind{{Speed: 6, Points: []polar.Point{point(50, 14.5), none, warns}}}})
	for _, kind := range []Kind{Polar, Speed, Crossovers} {
		c, err := Look{}.Of(kind, one, two)
		if err != nil {
			t.Fatal(err)
		}
		svg, err := c.SVG(Light)
		if err != nil {
			t.Fatal(err)
		}
		collide(t, words(t, svg), c)
		if len(c.Angles.Winds) != 2 || c.Angles.Winds[1].Boat != 1 || c.Angles.Winds[1].Name != "Spindle" {
			t.Errorf("curves %+v", c.Angles.Winds)
		}
		if g := c.Angles.Gains; len(g) != 1 || len(g[0].Points) != 2 || g[0].Points[0].Text != "+0.50" || g[0].Points[1].Text != "+1.00" {
			t.Errorf("gains %+v", g)
		}
		if kind == Speed {
			if want := "Spindle is faster than Dog Rose at 2 of 2 angles, by up to 1.00 kn at 110 deg in 11.7 kn"; c.Title != want {
				t.Errorf("title %q, want %q", c.Title, want)
			}
			for _, want := range []string{"flap past its table", "Spindle less Dog Rose (kn)", "#0B6BB0", "#C2500A"} {
				if !strings.Contains(string(svg), want) {
					t.Errorf("the picture does not say %q", want)
				}
			}
		}
		if c.Table.Head[0] != "boat" || c.Table.Rows[len(c.Table.Rows)-1][0] != "Spindle" {
			t.Errorf("the table does not name its boats: %v", c.Table)
		}
	}
	if _, err := (Look{}).Of(Budget, one, two); err == nil || !strings.Contains(err.Error(), "of several answers is not drawn") {
		t.Errorf("%v", err)
	}
}

// Progress over the wind, from comparisons and from odds: bands of the level that is
// asked for, and none but of those known.
func TestOverTheWind(t *testing.T) {
	var all []*compare.Result
	for _, v := range []float64{5, 7, 9} {
		boat := func(name string, progress float64) *trim.Result {
			return &trim.Result{Boat: name, Answer: trim.Found, Aim: trim.Windward.String(), TrueWindSpeed: si.Speed(v), WindFrom: "port", VMG: si.Speed(progress)}
		}
		all = append(all, &compare.Result{Boats: []*trim.Result{boat("Dog Rose", v), boat("Spindle", v+0.5*(v-7))}})
	}
	c, svg := drawn(t, Winds, all)
	if got := c.Winds.Gains[0].Points; got[0].Value.Text != "-1.94" || got[2].Value.Text != "+1.94" {
		t.Errorf("gains %+v", got)
	}
	if !strings.Contains(c.Title, "turns with the wind") || !strings.Contains(svg, "Spindle less Dog Rose") {
		t.Errorf("title %q", c.Title)
	}
	spread := func(middle float64) odds.Distribution {
		return odds.Distribution{P2: ptr(middle - 0.6), P10: ptr(middle - 0.4), P25: ptr(middle - 0.2), P50: ptr(middle), P75: ptr(middle + 0.2), P90: ptr(middle + 0.4), P97: ptr(middle + 0.6)}
	}
	r := &odds.Result{Samples: 64, Aim: trim.Windward.String(), Wind: 7, Boats: []odds.Figure{{Name: "Dog Rose"}, {Name: "Spindle"}}, Pairs: []odds.Pair{{First: "Dog Rose", Second: "Spindle"}}}
	for _, v := range []float64{5, 7} {
		r.Bands = append(r.Bands, odds.Band{Wind: si.Speed(v), Boats: []odds.Figure{{Progress: spread(v)}, {Progress: spread(v + 0.1)}}, Pairs: []odds.Pair{{Difference: spread(-0.1)}}})
	}
	ends := map[Level]string{50: "9.33", 80: "8.94", 95: "8.55"}
	for level, want := range ends {
		c, err := Look{Level: level}.Of(Winds, answer(r))
		if err != nil {
			t.Fatal(err)
		}
		if _, err := c.SVG(Dark); err != nil {
			t.Fatal(err)
		}
		if got := c.Table.Rows[0]; got[2] != want {
			t.Errorf("%v: the table's first row is %v, want %s at the band's end", level, got, want)
		}
	}
	if _, err := (Look{Level: 90}).Of(Winds, answer(r)); err == nil || !strings.Contains(err.Error(), "50, 80 or 95") {
		t.Errorf("%v", err)
	}
	var one study.Result = *answer([]*compare.Result{all[0]})
	if _, err := Of(Winds, &one); err == nil {
		t.Error("one wind was drawn over winds")
	}
}
