// Package readings reads what loggers wrote at a place.
package readings

import "wardian/content/measure"

// Reading is one measured temperature and relative humidity.
type Reading struct {
	Moment      measure.Moment
	Temperature measure.Temperature
	Humidity    measure.Humidity
}
