package cohort

import (
	"wardian/content"
	"wardian/content/measure"
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
	LostOn    int  // day found lost; Never unless Fate is Lost, and where a list gives no day
	LostAfter int  // L of the interval (L, LostOn]: the last day it was surely alive; -1 where no look says so
	LastAlive int  // last day seen alive, resting or not; Never where it never was
	Open      bool // neither lost, divided nor passed on, and seen alive lately
	Doubted   bool // the cause of loss was written with a question mark
	ByList    bool // it is a list alone that says that it was lost

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
			p.LostAfter = p.sureBefore(i, span{p.LostOn, p.LostOn}, l.LastGood, withdrawn)
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
	p.endListed(withdrawn)
}

// sureBefore is L of the interval (L, R] in which a part was lost, where the
// first so many looks came before the loss: the last of them that saw it surely
// alive, a list's day on which it was alive, or a later last-good. Looks at a
// plant at rest that saw neither root nor leaf come can't tell a resting plant
// from a dead one, so a run of them just before the loss doesn't count. Without
// any look before it the loss may be as old as the journey (-1), or, where the
// import says how often somebody looked, as old as that. R is the loss's last
// possible day; L is before it.
func (p *Part) sureBefore(looks int, lost span, lastGood measure.Day, withdrawn map[*content.Look]bool) int {
	sure, looked := -1, false
	if p.Parent != nil {
		sure, looked = p.Begins, true
	}
	if alive, ok := p.listedAlive(); ok {
		sure, looked = max(sure, alive), true
	}
	for i := looks - 1; i >= 0; i-- {
		l := p.Looks[i]
		if withdrawn[l] || !sawAlive(l) {
			continue
		}
		looked = true
		if l.AtRest && !grew(l) {
			continue
		}
		sure = max(sure, l.Day)
		break
	}
	if every := p.Specimen.Import.LookedEvery; every > 0 && !looked {
		sure = max(-1, lost.first-every)
	}
	if lastGood.Known() {
		sure = max(sure, int(lastGood-p.Specimen.Import.Day0()))
	}
	return min(sure, lost.last-1)
}

// grew tells whether a look saw a new root or a new leaf.
func grew(l *content.Look) bool {
	return l.Facts.Roots != nil && l.Facts.Roots.New || l.Facts.Leaves != nil && l.Facts.Leaves.New
}
