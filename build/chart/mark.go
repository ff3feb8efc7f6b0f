package chart

// Mark is a sign on the line; its shape carries the meaning, and its word
// always stands beside it or in the key.
type Mark int

const (
	NoMark Mark = iota
	LeavesCut
	RootsCut
	LeafDropped
	SectionCut
	FirstNewLeaf
	FirstNewRoot
	MoveDrier
	MoveWetter
	Established
	PassedOn
	Lost
	AliveLastSeen
	LeftWatch // on curves
	Divided   // cut up whole
	CheckIn   // upright soil line of the check-ins
	Arrived
	PlaceNote
	lastMark = PlaceNote
)

var markWords = [...]string{
	NoMark: "", LeavesCut: "leaves cut", RootsCut: "roots cut", LeafDropped: "leaf dropped", SectionCut: "section cut",
	FirstNewLeaf: "first new leaf", FirstNewRoot: "first new root", MoveDrier: "move to drier air",
	MoveWetter: "move back to wetter", Established: "established", PassedOn: "passed on", Lost: "lost",
	AliveLastSeen: "alive when last seen", LeftWatch: "left watch", Divided: "divided", CheckIn: "check-in",
	Arrived: "arrived", PlaceNote: "place note",
}

// Word is the mark's word, "" for NoMark or a number that is no mark.
func (m Mark) Word() string {
	if m < NoMark || m > lastMark {
		return ""
	}
	return markWords[m]
}

// side is where a mark stands to the line.
type side int

const (
	above side = iota
	below
	on // across the line
)

// glyph is a mark's shape, drawn round 0,0 with the line at y = 0.
type glyph struct {
	side   side
	line   string // stroked, with a halo under it
	solid  string // filled
	open   string // filled with ground and stroked
	knobs  [][2]float64
	class  string  // of line; "l" if empty
	radius float64 // of a disc or ring
	ring   bool
	dy     float64 // where the line lies in a 22 px icon
	noIcon bool    // no piece of soil line in the icon
}

var glyphs = [...]glyph{
	LeavesCut:     {side: above, line: "M-5.5-3 .5-15M.5-3 6.5-15", dy: 19},
	RootsCut:      {side: below, line: "M-6.5 15-.5 3M-.5 15 5.5 3", dy: 3},
	LeafDropped:   {side: above, line: "M0-12V-4M-4-8 0-3.5 4-8", class: "l fine", dy: 18},
	SectionCut:    {side: above, line: "M0 6V-4L-6-13M0-4 6-13", knobs: [][2]float64{{-6, -13}, {6, -13}}, dy: 16},
	FirstNewLeaf:  {side: above, solid: "M0-2C-7-7-6-13 0-18 6-13 7-7 0-2Z", dy: 20},
	FirstNewRoot:  {side: below, solid: "M-5 2H5L1.2 10 0 18-1.2 10Z", dy: 2},
	MoveDrier:     {side: above, line: "M-3-14V7", open: "M-3-13H9L5-8.5 9-4H-3Z", dy: 16, noIcon: true},
	MoveWetter:    {side: below, line: "M3 14.5V-2", solid: "M4 13.6H-10L-6 8.5-10 3.4H4Z", dy: 6, noIcon: true},
	Established:   {side: on, radius: 7, dy: 11, noIcon: true},
	PassedOn:      {side: on, line: "M-7 0H6M1-6 8 0 1 6", dy: 11, noIcon: true},
	Lost:          {side: on, line: "M-6.5-6.5 6.5 6.5M6.5-6.5-6.5 6.5", class: "x", dy: 11, noIcon: true},
	AliveLastSeen: {side: on, radius: 5.5, ring: true, dy: 11, noIcon: true},
	LeftWatch:     {side: on, line: "M0-7V7", dy: 11, noIcon: true},
	Divided:       {side: on, line: "M-7 0H0L7-6M0 0 7 6", knobs: [][2]float64{{7, -6}, {7, 6}}, dy: 11, noIcon: true},
	CheckIn:       {side: on, radius: 3.2, dy: 11, noIcon: true},
	Arrived:       {side: on, line: "M0-10V10", dy: 11, noIcon: true},
	PlaceNote:     {side: on, line: "M-6 0H6M0-6V6", dy: 11, noIcon: true},
}

func (m Mark) known() bool { return m > NoMark && m <= lastMark }

// shape is the mark's markup round 0,0; with a halo it stands clear of what it
// lies on.
func (m Mark) shape(halo bool) string {
	if !m.known() {
		return ""
	}
	if halo {
		return shapes[m]
	}
	return bare[m]
}

var shapes, bare = makeShapes(true), makeShapes(false)

func makeShapes(halo bool) []string {
	out := make([]string, len(glyphs))
	for m, g := range glyphs {
		s := ""
		if halo && g.line != "" {
			s += `<path class="halo" d="` + g.line + `"/>`
		}
		if halo && g.open != "" {
			s += `<path class="halo" d="` + g.open + `"/>`
		}
		cls := "mk"
		if halo {
			cls = "mk hal"
		}
		if g.radius > 0 {
			r := string(appendNum(nil, g.radius, 10))
			if g.ring {
				if halo {
					s += `<circle class="halo" r="` + r + `"/>`
				}
				s += `<circle class="o" r="` + r + `"/>`
			} else {
				s += `<circle class="` + cls + `" r="` + r + `"/>`
			}
		}
		if g.open != "" {
			s += `<path class="o" d="` + g.open + `"/>`
		}
		if g.solid != "" {
			s += `<path class="` + cls + `" d="` + g.solid + `"/>`
		}
		if g.line != "" {
			c := g.class
			if c == "" {
				c = "l"
			}
			s += `<path class="` + c + `" d="` + g.line + `"/>`
		}
		for _, k := range g.knobs {
			s += `<circle class="mk" cx="` + string(appendNum(nil, k[0], 10)) + `" cy="` + string(appendNum(nil, k[1], 10)) + `" r="3"/>`
		}
		out[m] = s
	}
	return out
}
