package figure

import (
	"bytes"
	_ "embed"
	"encoding/csv"
	"encoding/json"
	"errors"
	"fmt"

	"github.com/dop251/goja"

	"foilwright/study"
)

// Theme is a set of colours.
type Theme string

// The themes.
const (
	Light Theme = "light"
	Dark  Theme = "dark"
)

// bundle is the chart sources as one script, see charts/build.mjs.
//
//go:embed charts/dist/charts.js
var bundle string

// Bundle returns the script that draws charts, for a browser. It defines
// foilwrightCharts.draw(chart, theme), which returns the SVG of a [Chart] as JSON
// has it.
func Bundle() []byte { return []byte(bundle) }

// SVG returns the picture of a kind of a result. The same result gives the same bytes.
func SVG(kind Kind, r *study.Result, theme Theme) ([]byte, error) {
	c, err := Of(kind, r)
	if err != nil {
		return nil, err
	}
	return c.SVG(theme)
}

// deepest bounds the calls that a chart may nest, so that a fault of its sources is
// an error and no endless recursion.
const deepest = 500

// SVG draws the chart.
func (c *Chart) SVG(theme Theme) ([]byte, error) {
	if theme != Light && theme != Dark {
		return nil, fmt.Errorf("figure: %q is no theme\nhint: light or dark", theme)
	}
	text, err := json.Marshal(c)
	if err != nil {
		return nil, fmt.Errorf("internal error: the chart cannot be written: %w", err)
	}
	vm := goja.New()
	vm.SetMaxCallStackSize(deepest)
	if _, err := vm.RunScript("charts.js", bundle); err != nil {
		return nil, fmt.Errorf("internal error: the charts cannot be read: %w", err)
	}
	charts := vm.Get("foilwrightCharts")
	if charts == nil {
		return nil, errors.New("internal error: the bundle defines no charts")
	}
	draw, ok := goja.AssertFunction(charts.ToObject(vm).Get("drawJSON"))
	if !ok {
		return nil, errors.New("internal error: the bundle has no drawJSON")
	}
	drawn, err := draw(goja.Undefined(), vm.ToValue(string(text)), vm.ToValue(string(theme)))
	if err != nil {
		return nil, fmt.Errorf("internal error: the %s cannot be drawn: %w", c.Kind, err)
	}
	return []byte(drawn.String()), nil
}

// CSV returns the table behind the chart.
func (c *Chart) CSV() ([]byte, error) {
	var out bytes.Buffer
	w := csv.NewWriter(&out)
	if err := w.WriteAll(append([][]string{c.Table.Head}, c.Table.Rows...)); err != nil {
		return nil, fmt.Errorf("internal error: the table cannot be written: %w", err)
	}
	return out.Bytes(), nil
}
