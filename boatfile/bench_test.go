package boatfile

import "testing"

// BenchmarkRead reads Sorrel with all that it pulls in; sections take most of it.
func BenchmarkRead(b *testing.B) {
	text, err := open(folder + "sorrel.yaml")
	if err != nil {
		b.Fatal(err)
	}
	for b.Loop() {
		if _, err := Read(folder+"sorrel.yaml", text, open); err != nil {
			b.Fatal(err)
		}
	}
}

// BenchmarkParse turns Sorrel's text into a tree.
func BenchmarkParse(b *testing.B) {
	text, err := open(folder + "sorrel.yaml")
	if err != nil {
		b.Fatal(err)
	}
	for b.Loop() {
		if _, faults := parse("sorrel.yaml", text); len(faults) > 0 {
			b.Fatal(faults)
		}
	}
}

// BenchmarkBoat makes one boat from one draw.
func BenchmarkBoat(b *testing.B) {
	text, err := open(folder + "sorrel.yaml")
	if err != nil {
		b.Fatal(err)
	}
	s, err := Read(folder+"sorrel.yaml", text, open)
	if err != nil {
		b.Fatal(err)
	}
	draw := Draw{}
	for _, u := range s.Unknowns() {
		draw[u.Identity] = u.Quantity.At(0.4)
	}
	for b.Loop() {
		if _, err := s.Boat(draw); err != nil {
			b.Fatal(err)
		}
	}
}

// BenchmarkSet changes a figure in Sorrel's text.
func BenchmarkSet(b *testing.B) {
	text, err := open(folder + "sorrel.yaml")
	if err != nil {
		b.Fatal(err)
	}
	for b.Loop() {
		if _, err := Set(folder+"sorrel.yaml", text, open, "weights.rig.mass", "250 kg"); err != nil {
			b.Fatal(err)
		}
	}
}
