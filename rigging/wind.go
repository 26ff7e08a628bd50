package rigging

// UnsaidWind is the wind (m/s) against the lay that is taken where nothing is
// said of it: a gentle breeze, force 3 of the Beaufort scale (3.4 to 5.4 m/s,
// from memory). Calm air would leave out of the pull what most days have.
const UnsaidWind = 5.0
