package hull

import (
	"bufio"
	"flag"
	"fmt"
	"math"
	"os"
	"path/filepath"
	"slices"
	"strconv"
	"strings"
	"testing"

	"gonum.org/v1/gonum/mat"
)

// The fit behind the residuary resistance: penalised least squares on the open
// results of the Delft systematic yacht hulls (Gerritsma, Onnink and Versluis 1981;
// UCI data set 243), read in place.

// towed is one hull of the data: its form and its residuary resistance, per mille
// of its displacement, at the Froude numbers of the table.
type towed struct {
	form Form
	ln   []float64 // ln of the resistance
	at   []float64 // the resistance
}

func readTowed(t testing.TB) []towed {
	t.Helper()
	const name = "yacht_hydrodynamics.data"
	root := os.Getenv("FOILWRIGHT_DATA")
	if root == "" {
		root = filepath.Join("..", "..", "shared", "data")
	}
	file, err := os.Open(filepath.Join(root, name))
	if err != nil {
		if slices.Contains(strings.FieldsFunc(os.Getenv("FOILWRIGHT_NEEDS"), func(r rune) bool { return r == ',' || r == ' ' }), "data") {
			t.Fatalf("the open data set %s is needed: %v", name, err)
		}
		t.Skipf("the open data set %s is not here; set FOILWRIGHT_DATA to its folder", name)
	}
	defer file.Close()
	var all []towed
	lines := bufio.NewScanner(file)
	for lines.Scan() {
		var v [7]float64
		fields := strings.Fields(lines.Text())
		if len(fields) == 0 {
			continue
		}
		if len(fields) != 7 {
			t.Fatalf("%s: a row of %d columns, 7 are wanted", name, len(fields))
		}
		for i, f := range fields {
			if v[i], err = strconv.ParseFloat(f, 64); err != nil {
				t.Fatal(err)
			}
		}
		form := Form{Centre: v[0] / 100, Prismatic: v[1], Slenderness: v[2], BeamDraught: v[3], LengthBeam: v[4]}
		if n := len(all); n == 0 || len(all[n-1].at) == froudeCount {
			all = append(all, towed{form: form})
		}
		h := &all[len(all)-1]
		if h.form != form || math.Abs(v[5]-froudes()[len(h.at)]) > 1e-9 {
			t.Fatalf("%s: row %v is out of order", name, v)
		}
		h.at, h.ln = append(h.at, v[6]), append(h.ln, math.Log(v[6]))
	}
	return all
}

// unlike leaves out hulls that share one column of resistance though their forms
// differ: one of them is not its own, and nothing tells which.
func unlike(all []towed) (kept []towed, out []Form) {
	for i := range all {
		twin := false
		for j := range all {
			twin = twin || i != j && slices.Equal(all[i].at, all[j].at) && all[i].form != all[j].form
		}
		if twin {
			out = append(out, all[i].form)
			continue
		}
		kept = append(kept, all[i])
	}
	return kept, out
}

// weight counts a value less where it is of the order of the data's last digit
// and of the scatter of a tank.
func weight(at float64) float64 { return at / (at + 0.3) }

type penalties struct{ ridge, rough float64 }

// fit returns the coefficients, a row for each Froude number: least squares of
// ln R with the coefficients of forms drawn to nothing (ridge) and all of them to
// straight lines over ln Fn (rough).
func fit(hulls []towed, p penalties) [][terms]float64 {
	fn := froudes()
	n := len(fn) * terms
	a := mat.NewSymDense(n, nil)
	b := mat.NewVecDense(n, nil)
	add := func(i, j int, v float64) { a.SetSym(i, j, a.At(i, j)+v) }
	for _, h := range hulls {
		t := h.form.terms()
		for k := range fn {
			w := weight(h.at[k])
			w *= w
			for i := range terms {
				b.SetVec(k*terms+i, b.AtVec(k*terms+i)+w*t[i]*h.ln[k])
				for j := i; j < terms; j++ {
					add(k*terms+i, k*terms+j, w*t[i]*t[j])
				}
			}
		}
	}
	for k := range fn {
		for i := 1; i < terms; i++ {
			add(k*terms+i, k*terms+i, p.ridge)
		}
	}
	for k := 1; k < len(fn)-1; k++ {
		h0, h1 := math.Log(fn[k]/fn[k-1]), math.Log(fn[k+1]/fn[k])
		mean := math.Log(fn[len(fn)-1]/fn[0]) / float64(len(fn)-1)
		c := [3]float64{mean / h0, -mean/h0 - mean/h1, mean / h1}
		for i := range terms {
			rough := p.rough
			if i == 0 {
				rough *= 1e-4 // the mean curve is as the data have it
			}
			for r := range 3 {
				for s := r; s < 3; s++ {
					add((k-1+r)*terms+i, (k-1+s)*terms+i, rough*c[r]*c[s])
				}
			}
		}
	}
	var chol mat.Cholesky
	if !chol.Factorize(a) {
		panic("the normal equations are singular")
	}
	var x mat.VecDense
	if err := chol.SolveVecTo(&x, b); err != nil {
		panic(err)
	}
	out := make([][terms]float64, len(fn))
	for k := range fn {
		for i := range terms {
			out[k][i] = x.AtVec(k*terms + i)
		}
	}
	return out
}

// misses returns, for each Froude number, the root mean square error of hulls in
// per mille of displacement, and of the error over the value.
func misses(c [][terms]float64, hulls []towed) (absolute, relative []float64) {
	for k := range froudeCount {
		sum, share := 0.0, 0.0
		for _, h := range hulls {
			d := modelled(c[k], h.form) - h.at[k]
			sum += d * d
			share += d * d / (h.at[k] * h.at[k])
		}
		absolute = append(absolute, sum)
		relative = append(relative, share)
	}
	return absolute, relative
}

func modelled(c [terms]float64, f Form) float64 {
	t := f.terms()
	ln := 0.0
	for i := range terms {
		ln += c[i] * t[i]
	}
	return math.Exp(ln)
}

// crossed returns the summed squares of ten-fold cross-validation: each fold, every
// tenth hull, is foretold by a fit on the others.
func crossed(hulls []towed, p penalties) (absolute, relative []float64) {
	absolute, relative = make([]float64, froudeCount), make([]float64, froudeCount)
	for fold := range 10 {
		var train, test []towed
		for i, h := range hulls {
			if i%10 == fold {
				test = append(test, h)
			} else {
				train = append(train, h)
			}
		}
		a, r := misses(fit(train, p), test)
		for k := range a {
			absolute[k] += a[k]
			relative[k] += r[k]
		}
	}
	return absolute, relative
}

// chosen are the penalties: those of least error in cross-validation among powers
// of √10 (0.1 to 3 and 0.1 to 10 differ by less than 2 %).
func chosen() penalties { return penalties{ridge: 0.3, rough: 1} }

var writeFit = flag.Bool("write-fit", false, "write the fitted coefficients and the tables of docs/hull.md")

// The committed coefficients are what the data give.
func TestCoefficientsAreTheFit(t *testing.T) {
	hulls, _ := unlike(readTowed(t))
	c := fit(hulls, chosen())
	if *writeFit {
		writeCoefficients(t, c)
		writeTable(t, c, hulls)
		return
	}
	for k, row := range coefficients() {
		for i, v := range row {
			if math.Abs(v-c[k][i]) > 1e-6 {
				t.Errorf("Froude number %.3f, term %d: %.7f is committed, the fit gives %.7f", froudes()[k], i, v, c[k][i])
			}
		}
	}
}

func writeCoefficients(t *testing.T, c [][terms]float64) {
	t.Helper()
	var b strings.Builder
	b.WriteString("package hull\n\n// froudes are the Froude numbers of the table.\nfunc froudes() [14]float64 {\n\treturn [14]float64{")
	for k, fn := range froudes() {
		if k > 0 {
			b.WriteString(", ")
		}
		fmt.Fprintf(&b, "%.3f", fn)
	}
	b.WriteString("}\n}\n\n// coefficients are those of ln(1000 R/Δ) over the form's terms, a row for each\n// Froude number, fitted by this package's own test to open tank results\n" +
		"// (Gerritsma, Onnink and Versluis 1981): go test -run TestCoefficientsAreTheFit\n// -write-fit ./hull writes them.\nfunc coefficients() [14][terms]float64 {\n\treturn [14][terms]float64{\n")
	for _, row := range c {
		b.WriteString("\t\t{")
		for i, v := range row {
			if i > 0 {
				b.WriteString(", ")
			}
			fmt.Fprintf(&b, "%.7f", v)
		}
		b.WriteString("},\n")
	}
	b.WriteString("\t}\n}\n")
	if err := os.WriteFile("coefficients.go", []byte(b.String()), 0o644); err != nil {
		t.Fatal(err)
	}
}

const (
	hullDoc  = "../docs/hull.md"
	fitBegin = "<!-- fit -->\n"
	fitEnd   = "<!-- end of fit -->\n"
)

// table tells fit and cross-validation by Froude number, as docs/hull.md shows it.
func table(c [][terms]float64, hulls []towed) string {
	fitted, fittedShare := misses(c, hulls)
	foretold, foretoldShare := crossed(hulls, chosen())
	n := float64(len(hulls))
	var b strings.Builder
	b.WriteString("\n| Froude number | mean of the data, ‰ | fit misses by, ‰ | of the value | foretold misses by, ‰ | of the value | largest residual of the fit, ‰ |\n|---|---|---|---|---|---|---|\n")
	var sums [4]float64
	for k, fn := range froudes() {
		mean, largest := 0.0, 0.0
		for _, h := range hulls {
			mean += h.at[k] / n
			if d := modelled(c[k], h.form) - h.at[k]; math.Abs(d) > math.Abs(largest) {
				largest = d
			}
		}
		root := func(sum float64) float64 { return math.Sqrt(sum / n) }
		fmt.Fprintf(&b, "| %.3f | %.2f | %.2f | %.0f %% | %.2f | %.0f %% | %+.2f |\n", fn, mean,
			root(fitted[k]), 100*root(fittedShare[k]), root(foretold[k]), 100*root(foretoldShare[k]), largest)
		for i, v := range [4]float64{fitted[k], fittedShare[k], foretold[k], foretoldShare[k]} {
			sums[i] += v / float64(froudeCount)
		}
	}
	fmt.Fprintf(&b, "| all | | %.2f | | %.2f | | |\n\n", math.Sqrt(sums[0]/n), math.Sqrt(sums[2]/n))
	return b.String()
}

func writeTable(t *testing.T, c [][terms]float64, hulls []towed) {
	t.Helper()
	before, rest, after := docParts(t)
	if rest == "" && after == "" {
		t.Fatalf("%s has no place for the fit", hullDoc)
	}
	if err := os.WriteFile(hullDoc, []byte(before+fitBegin+table(c, hulls)+fitEnd+after), 0o644); err != nil {
		t.Fatal(err)
	}
}

func docParts(t *testing.T) (before, shown, after string) {
	t.Helper()
	text, err := os.ReadFile(hullDoc)
	if err != nil {
		t.Fatal(err)
	}
	before, rest, _ := strings.Cut(string(text), fitBegin)
	shown, after, _ = strings.Cut(rest, fitEnd)
	return before, shown, after
}

// docs/hull.md shows the fit and its cross-validation as they are.
func TestFitAsTold(t *testing.T) {
	hulls, out := unlike(readTowed(t))
	if len(out) != 2 || len(hulls) != 20 {
		t.Errorf("%d hulls are kept and %d left out; docs/hull.md says 20 and 2", len(hulls), len(out))
	}
	if _, shown, _ := docParts(t); shown != table(fit(hulls, chosen()), hulls) {
		t.Errorf("%s shows another fit; renew it with -write-fit", hullDoc)
	}
}

// What the program computes at the tested hulls and speeds is the fit; between them
// and beyond it is continuous with its slope.
func TestResiduaryIsTheFit(t *testing.T) {
	hulls, _ := unlike(readTowed(t))
	c := fit(hulls, chosen())
	for _, h := range hulls {
		r := newResiduary(h.form)
		for k, fn := range froudes() {
			near(t, "residuary resistance", 1000*r.at(fn, h.form.Slenderness), modelled(c[k], h.form), 0.03*modelled(c[k], h.form))
		}
	}
}

func TestResiduaryIsSmooth(t *testing.T) {
	for _, slender := range []float64{3.5, 4.34, 4.8, 5.14, 8, 20} {
		r := newResiduary(Form{Centre: -0.03, Prismatic: 0.55, Slenderness: slender, BeamDraught: 6})
		const h = 1e-7
		for fn := 0.01; fn < 1.3; fn += 0.01 {
			if v := r.at(fn, slender); !(v >= 0 && v < 0.2) {
				t.Errorf("slenderness %g, Froude number %.2f: %g of the weight carried", slender, fn, v)
			}
		}
		for _, fn := range []float64{0.125, 0.3, 0.45, 1} {
			before := (r.at(fn, slender) - r.at(fn-h, slender)) / h
			after := (r.at(fn+h, slender) - r.at(fn, slender)) / h
			near(t, "slope across a seam", after, before, 1e-4)
		}
	}
}

// froudeCount is how many Froude numbers the table has.
const froudeCount = 14
