// Package fluid says what the boat sails in: sea and fresh water, air, and the
// wind over height.
//
// In go a temperature, a salinity, a pressure, a humidity, or a wind at its
// reference height; out come densities, viscosities, vapour pressures and air
// velocities in the track frame. The package refuses to know boats, waves,
// currents, gusts and weather: the water is at rest, the wind is steady, and
// both are the same everywhere at one height.
//
// Temperatures are in kelvin ([ZeroCelsius] helps), salinities in kilograms of
// salt to a kilogram of sea water (Absolute Salinity; 35 g/kg is 0.035).
package fluid
