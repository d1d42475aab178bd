package fluid

import (
	"math"
	"strings"
	"testing"

	"foilwright/accuracy"
)

func TestMoistAir(t *testing.T) {
	want := published(t, "picard-2008.csv")
	for _, c := range []struct {
		id                          string
		celsius, pressure, humidity float64
	}{
		{"1.47", 20, 101325, 0.5}, {"1.48", 15, 101325, 0}, {"1.49", 15, 101325, 0.8}, {"1.52", 25, 101000, 0.6},
	} {
		a, err := MoistAir(ZeroCelsius+c.celsius, c.pressure, c.humidity)
		if err != nil {
			t.Fatal(err)
		}
		accuracy.Check(t, accuracy.Row{
			File: "picard-2008.csv", ID: c.id, Published: want[c.id][0], Computed: a.Density, Tolerance: 0.0001,
		})
	}
}

func TestStandardAtmosphere(t *testing.T) {
	want := published(t, "iso2533-1975.csv")
	for id, height := range map[string]float64{"1.44": 0, "1.46": 2000} {
		a, err := StandardAtmosphere(height)
		if err != nil {
			t.Fatal(err)
		}
		for i, got := range []struct {
			name, unit string
			value      float64
		}{{"temperature", "K", a.Temperature}, {"pressure", "Pa", a.Pressure}, {"density", "kg/m³", a.Density}, {"kinematic viscosity", "m²/s", a.KinematicViscosity}} {
			accuracy.Check(t, accuracy.Row{
				File: "iso2533-1975.csv", ID: id, Quantity: "standard atmosphere, " + got.name, Unit: got.unit,
				Published: want[id][i], Computed: got.value, Tolerance: 1e-5 * want[id][i],
			})
		}
	}
	// The Reynolds number behind the NACA section charts.
	re := published(t, "naca824-1945.csv")["1.53"][0]
	accuracy.Check(t, accuracy.Row{
		File: "naca824-1945.csv", ID: "1.53", Quantity: "Reynolds number in air", Published: re, Computed: StandardAir().Reynolds(100, 1), Tolerance: 0.003 * re,
	})
	near(t, "dynamic pressure", StandardAir().DynamicPressure(10), 61.25, 1e-4)
}

// The two formulas for air know nothing of each other: dry, at 15 °C, they
// differ by the carbon dioxide of 1975 and the real gas, 0.05 %.
func TestDryAirMeetsTheStandardAtmosphere(t *testing.T) {
	a, err := MoistAir(StandardTemperature, StandardPressure, 0)
	if err != nil {
		t.Fatal(err)
	}
	near(t, "density ratio", a.Density/StandardAir().Density, 1, 5e-4)
}

func TestAirRefusesWhatIsNotKnown(t *testing.T) {
	for _, c := range []struct {
		temperature, pressure, humidity float64
		says                            string
	}{
		{15, 101325, 0.5, "15 °C is 288.15 K"},
		{288.15, 1013.25, 0.5, "1 hPa is 100 Pa"},
		{288.15, 101325, 60, "60 % is 0.6"},
		{288.15, math.NaN(), 0.6, "air pressure: NaN Pa"},
	} {
		_, err := MoistAir(c.temperature, c.pressure, c.humidity)
		if err == nil || !strings.Contains(err.Error(), c.says) {
			t.Errorf("air of %v: error is %v, want one that says %q", c, err, c.says)
		}
	}
	if _, err := StandardAtmosphere(20000); err == nil || !strings.Contains(err.Error(), "allowed is -2000 to 11000 m") {
		t.Errorf("20 km up: error is %v", err)
	}
}
