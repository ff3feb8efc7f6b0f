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
	EstablishedMark
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
	MoveWetter: "move back to wetter", EstablishedMark: "established", PassedOn: "passed on", Lost: "lost",
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
