// Package night has the formulas for a coming night's minimum: from readings in the
// evening, from the sky and the wind, and hour by hour to sunrise. It knows nothing
// of plants. Temperatures are °C at the height where the evening's were taken; what
// is not known is NaN.
package night
