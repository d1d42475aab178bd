package figure

import (
	"bytes"
	"encoding/xml"
	"errors"
	"io"
	"math"
	"os"
	"path/filepath"
	"strconv"
	"strings"
	"testing"
	"unicode/utf8"

	"foilwright/si"
	"foilwright/study"
	"foilwright/trim"
)

// ask runs a question about example boats.
func ask(t testing.TB, q study.Question, boats ...string) *study.Result {
	t.Helper()
	if testing.Short() {
		t.Skip("trims a boat: left out in short runs")
	}
	open := func(name string) ([]byte, error) { return os.ReadFile(filepath.Join("..", name)) }
	r, err := study.Run(t.Context(), study.Request{Boats: boats, Question: q, Open: open})
	if err != nil {
		t.Fatal(err)
	}
	return r
}

func upwind(knots float64) study.Sailing {
	return study.Sailing{WindSpeeds: []si.Speed{si.Speed(knots) * si.Knot}, WindFrom: "port", Conditions: study.Standard()}
}

// word is a text of a picture with the box that it takes, on the safe side.
type word struct {
	says                     string
	left, right, top, bottom float64
}

// words reads a picture: it must be well-formed, and every number in it finite.
func words(t *testing.T, svg []byte) []word {
	t.Helper()
	if bytes.Contains(svg, []byte("NaN")) || bytes.Contains(svg, []byte("Infinity")) || bytes.Contains(svg, []byte("undefined")) {
		t.Error("the picture holds what is no number")
	}
	var all []word
	d := xml.NewDecoder(bytes.NewReader(svg))
	for {
		token, err := d.Token()
		if errors.Is(err, io.EOF) {
			return all
		}
		if err != nil {
			t.Fatalf("the picture is not well-formed: %v", err)
		}
		start, ok := token.(xml.StartElement)
		if !ok || start.Name.Local != "text" {
			continue
		}
		var says string
		if err := d.DecodeElement(&says, &start); err != nil {
			t.Fatal(err)
		}
		if w, ok := placed(t, says, start.Attr); ok {
			all = append(all, w)
		}
	}
}

// placed works out a text's box; texts that are turned have none.
func placed(t *testing.T, says string, attributes []xml.Attr) (word, bool) {
	t.Helper()
	at := map[string]float64{}
	anchor := "start"
	for _, a := range attributes {
		switch a.Name.Local {
		case "x", "y", "font-size":
			v, err := strconv.ParseFloat(a.Value, 64)
			if err != nil {
				t.Fatal(err)
			}
			at[a.Name.Local] = v
		case "text-anchor":
			anchor = a.Value
		case "transform":
			return word{}, false
		}
	}
	size := at["font-size"]
	wide := 0.5 * size * float64(utf8.RuneCountInString(says))
	w := word{says: says, left: at["x"], top: at["y"] - 0.72*size, bottom: at["y"] + 0.18*size}
	switch anchor {
	case "end":
		w.left -= wide
	case "middle":
		w.left -= wide / 2
	}
	w.right = w.left + wide
	return w, true
}

// apartFrom fails where two texts lie on each other. Head and foot stand in
// another group, and are laid out in lines; they are left out by what they say.
func collide(t *testing.T, all []word, c *Chart) {
	t.Helper()
	outside := c.Title + c.Under + strings.Join(c.Foot, " ")
	var inside []word
	for _, w := range all {
		if !strings.Contains(outside, w.says) {
			inside = append(inside, w)
		}
	}
	for i, a := range inside {
		for _, b := range inside[:i] {
			if math.Min(a.right, b.right) > math.Max(a.left, b.left) && math.Min(a.bottom, b.bottom) > math.Max(a.top, b.top) {
				t.Errorf("%q and %q lie on each other", a.says, b.says)
			}
		}
	}
}

// Front views of all four architectures: labels stay clear of each other, both
// themes say the same, and figures on them are those of the result.
func TestFrontViews(t *testing.T) {
	for _, x := range []struct {
		boat string
		wind float64
	}{
		{"examples/which-foil/sorrel.yaml", 17}, {"examples/which-foil/tansy.yaml", 17}, {"examples/dinghy/sloe.yaml", 12},
		{"examples/catamaran/bramble.yaml", 17}, {"examples/keelboat/guelder.yaml", 15},
	} {
		t.Run(filepath.Base(x.boat), func(t *testing.T) {
			r := ask(t, &study.View{Sailing: upwind(x.wind)}, x.boat)
			c, err := Of(FrontView, r)
			if err != nil {
				t.Fatal(err)
			}
			light, err := c.SVG(Light)
			if err != nil {
				t.Fatal(err)
			}
			dark, err := c.SVG(Dark)
			if err != nil {
				t.Fatal(err)
			}
			seen := words(t, light)
			collide(t, seen, c)
			if len(words(t, dark)) != len(seen) {
				t.Error("the dark picture does not say what the light one does")
			}
			says := string(light)
			balanced(t, c, r.Results.([]*study.ViewResult)[0].Trim)
			for _, f := range c.Front.Forces {
				if !strings.Contains(says, f.Text) {
					t.Errorf("%s: %s is not on the picture", f.Name, f.Text)
				}
			}
			for _, want := range []string{r.Fingerprint[:12], "loads are not scantlings", r.Version, "<desc", c.Front.Lever.Text} {
				if !strings.Contains(says, want) {
					t.Errorf("the picture does not say %q", want)
				}
			}
		})
	}
}

// balanced holds the forces that are drawn against the balance: weight, water and
// sails make up all of it but windage, buoyancy and drag, which heel tips out of level.
func balanced(t *testing.T, c *Chart, r *trim.Result) {
	t.Helper()
	var sum Place
	for _, f := range c.Front.Forces {
		sum[0] += f.Force[0]
		sum[1] += f.Force[1]
	}
	if off := math.Hypot(sum[0], sum[1]); off > 0.08*r.Weight {
		t.Errorf("forces drawn are %.0f N out of balance, of %.0f N of weight", off, r.Weight)
	}
}

// The same chart gives the same bytes; what it is not drawn from is an error.
func TestKindsAndResults(t *testing.T) {
	r := ask(t, &study.Trim{Sailing: upwind(17)}, "examples/which-foil/sorrel.yaml")
	one, err := SVG(Limits, r, Light)
	if err != nil {
		t.Fatal(err)
	}
	two, err := SVG(Limits, r, Light)
	if err != nil || !bytes.Equal(one, two) {
		t.Errorf("twice the same limits give two pictures: %v", err)
	}
	for _, x := range []struct {
		kind  Kind
		theme Theme
		want  string
	}{
		{"pie", Light, `figure: "pie" is no kind of figure`},
		{Polar, Light, "figure: polar is not drawn from an answer of trim\nhint: front-view is drawn from view"},
		{Limits, "sepia", `figure: "sepia" is no theme`},
	} {
		if _, err := SVG(x.kind, r, x.theme); err == nil || !strings.HasPrefix(err.Error(), x.want) {
			t.Errorf("%s: %v, want %s…", x.kind, err, x.want)
		}
	}
}

// One picture from a chart that is made: the bundle read, the drawing drawn.
func BenchmarkFrontView(b *testing.B) {
	c, err := Of(FrontView, ask(b, &study.View{Sailing: upwind(17)}, "examples/which-foil/sorrel.yaml"))
	if err != nil {
		b.Fatal(err)
	}
	for b.Loop() {
		if _, err := c.SVG(Light); err != nil {
			b.Fatal(err)
		}
	}
}
