package chart

// HTML is markup that is safe to print as it is: everything handed in was
// escaped.
type HTML string

// Drawing is what every function here hands back.
type Drawing struct {
	// HTML is the picture, or a sentence where there is nothing to draw, or
	// "" where the drawing is to be left out (soil lines below two dates).
	HTML HTML
	// Key is a list of what the picture can't say beside itself at some width;
	// it stands under the picture, inside the same .fig, and may be "".
	Key HTML
	// Tables hold every number drawn. None where nothing was drawn.
	Tables []Table
	// Notes are sentences that belong under the picture ("roots not seen since
	// day 12"), plain text, not escaped.
	Notes []string
}

// Empty says that there is nothing to print.
func (d Drawing) Empty() bool { return d.HTML == "" }

// Table is a table in words, ready to print; cells are plain text, not escaped.
// Its first column names the row. An empty cell means "not known".
type Table struct {
	Caption string
	Columns []Column
	Rows    [][]string
}

// Column is the head of a table's column.
type Column struct {
	Name    string
	Numeric bool // set right
}

// Head is what every picture carries besides its numbers.
type Head struct {
	// ID is the prefix of the ids in this drawing; it must be the picture's own
	// on its page. Anything but letters, digits and hyphens is dropped.
	ID string
	// Title is a plain noun ("Root to leaf, b26-03"). Desc says in words what
	// is seen; where it is empty one is made from the numbers.
	Title, Desc string
	// Days is the last day of the axis, so that all plots of a page can share
	// it. 0, or less than what is drawn: NiceDays of what is drawn.
	Days int
}

// Stage is how wet the air of a place is; 0 is not known.
type Stage int

const (
	NoStage Stage = iota
	Soak
	Bin
	StepDown
	Room
)

// Word is the trade's word: soak, bin, step-down, room; "" if not known.
func (s Stage) Word() string {
	if s < Soak || s > Room {
		return ""
	}
	return [...]string{"soak", "bin", "step-down", "room"}[s-Soak]
}

// Stay is a time at one place, from the day From up to but without the day To
// (the next stay's From). To before From is left out.
type Stay struct {
	From, To int
	Stage    Stage
	Place    string
}

// Event is something done or seen on a day, and its mark on the line.
type Event struct {
	Day  int
	Mark Mark
	// Words stand beside the mark ("3 leaves cut", "×6.2"); empty: the mark's
	// own word. Note is a second, quiet line ("−96 cm²"); may be empty.
	Words, Note string
}

// End is how watching ended, or stands: Lost, PassedOn, AliveLastSeen or
// Divided on the last day seen. It is drawn 8 px after that day, so that the
// line's end stays exact. Established is no end but an Event.
type End struct {
	Day  int
	Mark Mark
}

// Known says how a figure came about.
type Known int

const (
	Unknown   Known = iota // no figure
	Measured               // filled dot, thick strand
	Estimated              // open dot, thin strand
)

// Numerator is what a root length is. Lengths of different kinds are never
// joined and never stand in one column without the kind beside them.
type Numerator int

const (
	NoLength    Numerator = iota
	RootLength            // all roots together
	CountByMean           // count × mean length
	LongestRoot           // the longest one alone
)

// Word names it: root length, count × mean, longest root.
func (n Numerator) Word() string {
	if n < RootLength || n > LongestRoot {
		return ""
	}
	return [...]string{"root length", "count × mean", "longest root"}[n-RootLength]
}

// Look is one check-in's figures, after any cutting. Several on one day stand
// in their order.
type Look struct {
	Day int

	Leaf    Known
	AreaCm2 float64 // of all leaves; read unless Leaf is Unknown
	// Falls: what is missing since the look before was cut or dropped on this
	// day, so the edge falls upright instead of sloping.
	Falls bool

	Roots    Known
	Length   Numerator
	LengthCm float64 // read unless Roots is Unknown or Length is NoLength

	Counted bool // Leaves was counted
	Leaves  int
	Graded  bool // RootGrade was seen
	Grade   int  // 0 none … 5 fills the pot
}

// DayValue is one day's figure; days without one are left out of the slice and
// blank in the drawing.
type DayValue struct {
	Day   int
	Value float64
}

// SoilLine is the root-to-leaf chart of one specimen.
type SoilLine struct {
	Head
	Looks      []Look
	Events     []Event
	End        End
	Stays      []Stay
	DeficitKPa []DayValue // day means where it stood
}

// Thumbs are soil lines that share days and scale: the cells of an import's
// page or the strip on the front page.
type Thumbs struct {
	Days int // shared; 0: NiceDays of all
	// PxPerCm2 is the height of 1 cm² and of 1 cm; 0: 0.25.
	PxPerCm2 float64
	// ScaleCm2 is the length of the two scale marks of the first cell; 0: a
	// round figure that fits.
	ScaleCm2 float64
	Cells    []Thumb
}

// Thumb is one cell. Its drawing is hidden from screen readers: the words
// beside it (number, name, outcome) say what it is.
type Thumb struct {
	Number string // names the rows of the table
	Looks  []Look
	End    End
}

// ThumbDrawings are the cells in the order given.
type ThumbDrawings struct {
	HowTo  HTML   // first cell: how to read; has its own words for screen readers
	Cells  []HTML // "" where fewer than two dates have an area or a length
	Tables []Table
	Words  string // the how-to in one sentence
}

// RowChart is "where each one stood": a water level a specimen.
type RowChart struct {
	Days int
	Rows []Row
}

// Row is one bar.
type Row struct {
	Number, Name string // table only; the page prints them beside the bar
	Section      bool   // a lower bar, under its parent
	Born         int    // day its bar starts (a section's cutting)
	Stays        []Stay
	Events       []Event // marks on the bar
	End          End
	Outcome      string // in words, for the table
}

// RowDrawings go into <ol class="rows">, one <li> each; see classes.go.
type RowDrawings struct {
	Top, Bottom HTML   // the axis rows, hidden from screen readers
	Bars        []HTML // hidden from screen readers: outcome and table say it in words
	Key         HTML   // the marks that occur
	Tables      []Table
}

// Step is one row of a product-limit table: a day with a loss or a leaving.
type Step struct {
	Day                int
	AtRisk, Lost, Left int // under watch at the day's start; lost on it; left on it alive
	Share              float64
	HasLimits          bool // false where the share is 0 or 1
	Lower, Upper       float64
}

// Curve is a survival curve: the share alive by days since arrival, from 1 on
// day 0 (or on From) in steps. A day without a loss or a leaving needs no step.
type Curve struct {
	Head
	Name  string // season or group; drawn only beside other curves
	N     int    // lines; the first step's AtRisk is believed if it differs
	From  int    // landmark day on which the curve starts; else 0
	Steps []Step
	// EndWords stand at the end, counts first ("8 of 14 alive, or 56%"),
	// EndLimits under them ("95% limits 27 to 78%").
	EndWords, EndLimits string
	// Unit is what is counted: "lines" if empty.
	Unit string
	// HeightPx of the 0 to 100 % axis; 0: 230, never under 170.
	HeightPx int
}

// Curves are several curves on one axis: no bands, a dash each, the name at
// the end. At most MaxCurves are drawn; the rest are in the tables and named
// in a note.
type Curves struct {
	Head
	Groups   []Curve // their own Head is not read
	HeightPx int     // 0: 300, never under 170
}

// Interval is a share with its limits, each from 0 to 1.
type Interval struct{ Share, Lower, Upper float64 }

// KeyItem is a mark and its word.
type KeyItem struct {
	Mark  Mark
	Words string // empty: the mark's own word
}

// Date is a calendar day.
type Date struct{ Year, Month, Day int }

// PlaceDay is what a place was like on one day, Day counting from
// PlacePlot.First.
type PlaceDay struct {
	Day             int
	Mean            float64
	HasRange        bool // Lowest and Highest are known
	Lowest, Highest float64
}

// PlacePlot is a place on calendar days: deficit, temperature and humidity in
// plots of their own over one axis, who stood there beneath.
type PlacePlot struct {
	Head  // Days counts from First
	First Date
	Stage Stage

	DeficitKPa   []PlaceDay
	TemperatureC []PlaceDay
	HumidityPct  []PlaceDay // relative humidity, 0 to 100
	Notes        []Event    // a power cut, a heat wave: Words on its day
	Stood        []Stood
}

// Stood is who stood there, in days since First.
type Stood struct {
	Number, Name string
	From, To     int // To: the first day elsewhere, or the last day + 1
	Mark         Mark
}

// Line is a specimen with everything cut from it, as a dated tree of water
// levels. Parts[0] is the plant as received.
type Line struct {
	Head
	Parts []Part
}

// Part is one branch; Parent is an index into Line.Parts that lies before it,
// or −1.
type Part struct {
	Number, Words string // "b26-03-top", "alive day 84"
	Parent        int
	Born          int
	Stays         []Stay
	Events        []Event
	End           End
}

const (
	// JoinDays is how far apart, in days, two looks may be and still be joined
	// by an edge or by strands. Common practice, no source: half of twelve weeks.
	JoinDays = 42
	// MaxCurves is how many curves one axis bears.
	MaxCurves = 6
)
