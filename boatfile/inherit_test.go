package boatfile

import (
	"errors"
	"fmt"
	"os"
	"strings"
	"testing"
)

// files is an opener of texts by name.
func files(texts map[string]string) func(string) ([]byte, error) {
	return func(name string) ([]byte, error) {
		text, ok := texts[name]
		if !ok {
			return nil, os.ErrNotExist
		}
		return []byte(text), nil
	}
}

// one reads a.yaml of texts.
func one(texts map[string]string) (*Sheet, error) {
	return Read("a.yaml", []byte(texts["a.yaml"]), files(texts))
}

const small = "foilwright: 1\nname: B\nlength: 10 m\nweights:\n  hull: {mass: 100 kg ± 5 kg, at: {x: 1 m, z: 1 m}}\n  crew: {mass: 80 kg, at: {z: 1 m}, moves: {y: -1 to 1 m}}\n"

func TestLikeMergesAndNoneRemoves(t *testing.T) {
	s, err := one(map[string]string{
		"a.yaml": "foilwright: 1\nname: A\nlike: b.yaml\nweights: {hull: {at: {x: 2 m}}, crew: none, lead: {mass: 7 kg, at: {}}}\n",
		"b.yaml": small,
	})
	if err != nil {
		t.Fatal(err)
	}
	b, err := s.Boat(nil)
	if err != nil {
		t.Fatal(err)
	}
	if len(b.Weights) != 2 || b.Mass() != 107 || b.Weights[0].At.X != 2 || b.Weights[0].At.Z != 1 || b.Name != "A" {
		t.Errorf("the variant is %+v", b.Weights)
	}
	// What it inherits is the same unknown: it stands in b.yaml.
	for _, u := range s.Unknowns() {
		if u.Name == "weights.hull.mass" && u.File != "b.yaml" {
			t.Errorf("the inherited mass is the unknown %s", u.Identity)
		}
	}
}

func TestFaultsOfLike(t *testing.T) {
	chain := map[string]string{}
	for i := range 12 {
		chain[fmt.Sprintf("%c.yaml", 'a'+i)] = fmt.Sprintf("foilwright: 1\nname: A\nlike: %c.yaml\n", 'b'+i)
	}
	for _, c := range []struct {
		texts map[string]string
		want  string
	}{
		{map[string]string{"a.yaml": "name: A\nlike: b.yaml", "b.yaml": "name: B\nlike: a.yaml"},
			"b.yaml:2:7: like: goes round in a circle: a.yaml is like b.yaml is like a.yaml"},
		{map[string]string{"a.yaml": "name: A\nlike: a.yaml"}, "a.yaml:2:7: like: goes round in a circle: a.yaml is like a.yaml"},
		{chain, "i.yaml:3:7: like: a chain of more than 8 files: a.yaml is like b.yaml"},
		{map[string]string{"a.yaml": "name: A\nlike: nowhere.yaml"}, "a.yaml:2:7: like: nowhere.yaml cannot be read: "},
		{map[string]string{"a.yaml": "name: A\nlike: /etc/passwd"}, `a.yaml:2:7: like: "/etc/passwd" is not a file's name beside this file`},
		{map[string]string{"a.yaml": "foilwright: 1\nname: A\nlike: b.yaml", "b.yaml": strings.Replace(small, "10 m", "10", 1)},
			"b.yaml:3:9: length: 10 has no unit"},
		{map[string]string{"a.yaml": "foilwright: 1\nname: A\nlike: b.yaml\nweights: {lead: none}", "b.yaml": small},
			"a.yaml:4:17: weights.lead: none removes what is inherited, and nothing is"},
	} {
		_, err := one(c.texts)
		if err == nil || !strings.Contains(err.Error(), c.want) {
			t.Errorf("%v\nwant %s", err, c.want)
		}
	}
}

// Where what a file is like cannot be had, that is told and nothing of what is
// missing for it, with one hint: the opener's own where it has one.
func TestLikeThatCannotBeRead(t *testing.T) {
	text := []byte("foilwright: 1\nname: A\nlike: nowhere.yaml\n")
	for want, open := range map[string]Opener{
		"a.yaml:3:7: like: nowhere.yaml cannot be read: there is no such file\nhint: did you mean b.yaml?": func(name string) ([]byte, error) {
			return nil, errors.New(name + ": there is no such file\nhint: did you mean b.yaml?")
		},
		"a.yaml:3:7: like: nowhere.yaml cannot be read: gone\nhint: names are relative to the file that they stand in": func(string) ([]byte, error) {
			return nil, errors.New("gone")
		},
	} {
		if _, err := Read("a.yaml", text, open); err == nil || err.Error() != want {
			t.Errorf("%v\nwant %s", err, want)
		}
	}
}

// Shared unknowns are the file that defines them and their name; figures of a
// boat are drawn by them.
func TestSharedUnknowns(t *testing.T) {
	texts := map[string]string{
		"a.yaml": "foilwright: 1\nname: A\nlike: b.yaml\nshares: u.yaml\nunknowns: {sag: {is: 0 mm ± 5 mm, basis: tape}}\n" +
			"length: {is: 10 m ± 0.1 m, times: scale, plus: sag, basis: photo}\n",
		"b.yaml": small,
		"u.yaml": "unknowns: {scale: {is: 1.00 ± 0.02, basis: rail}}\n",
	}
	s, err := one(texts)
	if err != nil {
		t.Fatal(err)
	}
	draw := Draw{{"u.yaml", "scale"}: 1.1, {"a.yaml", "sag"}: 0.01, {"a.yaml", "length"}: 10.2, {"b.yaml", "weights.hull.mass"}: 90}
	for _, want := range []Identity{{"u.yaml", "scale"}, {"a.yaml", "sag"}, {"a.yaml", "length"}, {"b.yaml", "weights.hull.mass"}, {"model", "gap"}} {
		if !s.uncertain(want) {
			t.Errorf("%s is not among the unknowns %v", want, s.Unknowns())
		}
	}
	b, err := s.Boat(draw)
	if err != nil {
		t.Fatal(err)
	}
	near(t, "length", b.Length, 10.2*1.1+0.01, 1e-12)
	near(t, "mass", b.Mass(), 170, 1e-12)
	likely, err := s.Boat(nil)
	if err != nil {
		t.Fatal(err)
	}
	near(t, "likely length", likely.Length, 10, 1e-12)
	if _, err := s.Boat(Draw{{"a.yaml", "length"}: -3}); err == nil || !strings.Contains(err.Error(), "is no length") {
		t.Errorf("a draw of a negative length: %v", err)
	}
	texts["a.yaml"] = strings.Replace(texts["a.yaml"], "shares: u.yaml", "shares: [u.yaml, v.yaml]", 1)
	texts["v.yaml"] = texts["u.yaml"]
	if _, err := one(texts); err == nil || !strings.Contains(err.Error(), "two shared unknowns have this name, at u.yaml:1:24 and v.yaml:1:24") {
		t.Errorf("two unknowns of one name: %v", err)
	}
}

// A spread that would let a chord or a mass fall below zero has its tail cut.
func TestTailsStayAboveZero(t *testing.T) {
	s, err := one(map[string]string{"a.yaml": strings.Replace(small, "100 kg ± 5 kg", "100 kg ± 50 kg", 1)})
	if err != nil {
		t.Fatal(err)
	}
	for _, u := range s.Unknowns() {
		if u.Name != "weights.hull.mass" {
			continue
		}
		if low, _ := u.Quantity.Support(); low <= 0 {
			t.Errorf("the mass may be drawn as %g kg", low)
		}
	}
}
