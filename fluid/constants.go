package fluid

const (
	// ZeroCelsius is 0 °C in kelvin (ISO 80000-5).
	ZeroCelsius = 273.15
	// StandardPressure is the standard atmosphere, Pa (10th CGPM 1954; ISO 2533:1975).
	StandardPressure = 101325.0
	// StandardTemperature is 15 °C in kelvin, the sea-level temperature of the
	// standard atmosphere (ISO 2533:1975) and of the reference sea water in use
	// for ship trials (ITTC 7.5-02-01-03, 2011).
	StandardTemperature = ZeroCelsius + 15
	// StandardSalinity is the Absolute Salinity of standard sea water, kg/kg
	// (Millero, Feistel, Wright, McDougall 2008, Reference Composition).
	StandardSalinity = 0.03516504
)
