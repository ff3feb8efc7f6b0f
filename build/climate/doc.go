// Package climate says how strongly the air asks water of a leaf: saturation
// vapour pressure, the deficit of a reading, days of readings summed up, what a
// move changes, and a plan for stepping down from a humid place to a dry one.
//
// Temperatures are in degrees Celsius, humidities in per cent, pressures in
// kilopascals. All figures stand on equation 11 of FAO-56: Allen R.G., Pereira
// L.S., Raes D., Smith M., 1998, Crop evapotranspiration, FAO Irrigation and
// Drainage Paper 56, chapter 3. Over 15 to 32 °C it lies within 0.32 % of the
// other published formulae, far below what a hygrometer gets wrong: 3 % of
// relative humidity are 0.095 kPa at 25 °C. So a deficit under Floor is never
// divided by; what is said of it is a bound.
//
// The package refuses to guess: not the temperature of a leaf, which has to be
// measured; not a humidity where nothing was read; not whether a plant will bear
// a move. No schedule of humidities tested on bare-root imports was found; a
// plan made here is the grower's own. It knows no places and no plants.
package climate
