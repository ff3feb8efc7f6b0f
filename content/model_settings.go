package content

import (
	"time"

	"wardian/content/measure"
)

// Settings is diary.yaml.
type Settings struct {
	Page
	Name     string
	Grower   string
	About    string // a line under the name
	Address  string // where the site will stand, ending in a slash; "" where not said
	Zone     *time.Location
	Currency string // ISO 4217; "" where there is no money in the diary
	Units    measure.Units
	Contact  string
	Licence  string // SPDX short name, of words, pictures and data

	PublishCosts bool
	PublishTimes bool
	HoldBack     int // days; nothing younger goes out

	Landmark   int // days; default 3
	Horizon    int // days; default 42
	NoRootBy   int // days; default 21
	SeenWithin int // days; -1 where not set: the larger of 7 and twice check-every
	RulesOff   []string
}
