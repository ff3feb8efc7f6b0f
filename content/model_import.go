package content

import (
	"github.com/govalues/decimal"

	"wardian/content/measure"
)

// Import is one consignment from one exporter.
type Import struct {
	Page
	ID         string
	Season     string
	Origin     string
	Exporter   string
	Ordered    measure.Span
	Dispatched measure.Span
	Arrived    measure.Span   // day 0; half known, it counts from its first possible day
	Unpacked   measure.Moment // default: the arrival
	Received   int            // plants in the box; -1 where not said
	Short      []ShortPlant   // as written

	Phytosanitary   bool
	Permits         []string
	Packing         []string
	Box             *measure.Figure[measure.Temperature]
	Parcel          string // cold, warm, late or ""
	ClaimUntil      measure.Moment
	QuarantineUntil measure.Day

	Costs        []Cost // as written, shared-by apart
	SharedBy     string // "count" (default) or "price"
	Rates        []Rate
	Refunds      []Refund
	FollowedFrom measure.Day
	Local        bool

	List        *List // the table that it is kept as; nil for most
	LookedEvery int   // days for which a loss could go unseen; 0 where not said
	rows        int   // of the table
}

// Day0 is the day from which the import's days count.
func (i *Import) Day0() measure.Day { return i.Arrived.First }

// ShortPlant was ordered and was not in the box.
type ShortPlant struct {
	Name  string
	Count int
}

// Cost is one shared cost of an import, under the grower's own words.
type Cost struct {
	Words  string
	Amount measure.Money
}

// Rate tells how much of the diary's currency one unit of Currency cost.
type Rate struct {
	Currency string
	PerOne   decimal.Decimal
}

// Refund is money that came back.
type Refund struct {
	Date   measure.Day
	Amount measure.Money
	For    string // "short", a specimen's ID, or "other ..."
}

// Specimen is one plant as received, or a section cut from one.
type Specimen struct {
	Page      // File is nil for a section without a file, and the table for one from a list
	ID        string
	Name      string
	Import    *Import
	Price     *measure.Money
	Size      string // seedling, small, medium, large or ""
	SizeSold  string
	LeafShape string   // "" where not said
	LeafWhole bool     // length measured whole (default), not from the sinus to the tip
	Factor    *float64 // leaf-factor, where given
	Received  string   // received-as: the label's words
	Renamed   measure.Day
	Climate   string // cool, warm or ""
	Local     *measure.Money
	Traits    []Trait // by word

	Listed *Listed // what a list tells of it; nil for one with a file, and for sections

	Parent   *Specimen      // nil but for sections
	CutOn    measure.Moment // when it was cut from its parent
	Position string         // top, middle, base, offset, division, growing point
	CutBy    *Entry         // the entry that says so
}

// Trait is one of the grower's own groupings.
type Trait struct{ Word, Value string }

// Root is the specimen as received from which this one was cut, or itself.
func (s *Specimen) Root() *Specimen {
	for s.Parent != nil {
		s = s.Parent
	}
	return s
}

// NameOn is the name the plant bore on a day: its label's, before a renaming.
func (s *Specimen) NameOn(d measure.Day) string {
	if s.Received != "" && s.Renamed.Known() && d < s.Renamed {
		return s.Received
	}
	return s.Name
}
