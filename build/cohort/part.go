package cohort

import (
	"wardian/content"
)

// Never stands for a day on which something did not happen.
const Never = -1 << 30

// Part is one plant of a line: the specimen as received, or a section.
type Part struct {
	*content.Timeline
	Line   *Line
	Parent *Part
	Depth  int // 0 for the specimen as received
	Begins int // day of arrival (0) or of the cut

	Fate      Fate
	LostOn    int  // day found lost; Never unless Fate is Lost
	LostAfter int  // L of the interval (L, LostOn]: the last day it was surely alive; -1 where no look says so
	LastAlive int  // last day seen alive, resting or not; Never where it never was
	Open      bool // neither lost, divided nor passed on, and seen alive lately
	Doubted   bool // the cause of loss was written with a question mark

	Points []Point // leaf and root, a point a look that saw either change or counted it
	Moves  []Move
}

// Fate is how the watch over a part or a line ended, or that it goes on.
type Fate int

const (
	// Open: under watch to the as-of day. Of a part: not known to have ended.
	Open Fate = iota
	// Lost: found dead.
	Lost
	// PassedOn: sold or given away; followed no further.
	PassedOn
	// NotSeen: not looked at for longer than the diary's rule allows, or never.
	NotSeen
	// Divided: cut up whole (parts only).
	Divided
)

// String is the word for a fate.
func (f Fate) String() string {
	return [...]string{"alive", "lost", "passed on", "not seen since", "divided"}[f]
}

// lastAliveLook tells whether a look saw the plant alive.
func sawAlive(l *content.Look) bool { return l.Outcome != content.Lost || cutUp(l) }

// cutUp tells whether a losing look is in truth a cutting: "lost" beside
// sections means that the rest was thrown away, so it counts as divided.
func cutUp(l *content.Look) bool {
	if len(l.CutInto) == 0 {
		return false
	}
	for _, piece := range l.CutInto {
		if piece.ID == l.Timeline.Specimen.ID {
			return false
		}
	}
	return true
}

// end works out how the watch over a part ended.
func (p *Part) end(withdrawn map[*content.Look]bool) {
	p.LostOn, p.LostAfter, p.LastAlive = Never, Never, Never
	if p.Parent != nil {
		p.LastAlive = p.Begins // the cut saw the piece alive
	}
	for i, l := range p.Looks {
		switch {
		case withdrawn[l]:
			continue
		case !sawAlive(l):
			p.Fate, p.LostOn = Lost, max(l.Day, 0)
			p.LostAfter = p.sureBefore(i, withdrawn)
			p.Doubted = l.Cause.Doubt
			if l.LastGood.Known() {
				p.LastAlive = max(p.LastAlive, int(l.LastGood-p.Specimen.Import.Day0()))
			}
			continue
		}
		p.LastAlive = max(p.LastAlive, l.Day)
		switch l.Outcome {
		case content.PassedOn:
			p.Fate = PassedOn
		case content.AliveAfterAll:
			p.Fate, p.LostOn, p.LostAfter = Open, Never, Never
		}
	}
	if p.Divided.Known() {
		p.Fate = Divided
		p.LastAlive = max(p.LastAlive, int(p.Divided.Day-p.Specimen.Import.Day0()))
	}
}

// sureBefore is L of the interval (L, R] in which a part was lost, found by
// look number losing: the last look that saw it surely alive, or a later
// last-good. Looks at a plant at rest that saw neither root nor leaf come can't
// tell a resting plant from a dead one, so a run of them just before the loss
// doesn't count. Without such a look it is -1: the loss may be as old as the
// journey.
func (p *Part) sureBefore(losing int, withdrawn map[*content.Look]bool) int {
	found := p.Looks[losing]
	sure := -1
	if p.Parent != nil {
		sure = p.Begins
	}
	for i := losing - 1; i >= 0; i-- {
		l := p.Looks[i]
		if withdrawn[l] || !sawAlive(l) || (l.AtRest && !grew(l)) {
			continue
		}
		sure = max(sure, l.Day)
		break
	}
	if found.LastGood.Known() {
		sure = max(sure, int(found.LastGood-p.Specimen.Import.Day0()))
	}
	return min(sure, max(found.Day, 0)-1)
}

// grew tells whether a look saw a new root or a new leaf.
func grew(l *content.Look) bool {
	return l.Facts.Roots != nil && l.Facts.Roots.New || l.Facts.Leaves != nil && l.Facts.Leaves.New
}
