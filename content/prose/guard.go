package prose

// Some short texts keep a Markdown parser busy for minutes: thousands of openers
// that each search the whole rest for a closer. The parser can't be stopped from
// outside and a clock would judge differently on each machine, so its own parts
// are wrapped here: each spends from a budget what its search will cost before
// it searches, and a body that overspends is given up. Ordinary writing of 64
// KiB spends a few per cent of it.

import (
	"bytes"

	"github.com/yuin/goldmark/ast"
	extast "github.com/yuin/goldmark/extension/ast"
	"github.com/yuin/goldmark/parser"
	"github.com/yuin/goldmark/text"
)

const (
	budget    = 6 << 20 // steps of some nanoseconds each, for one body
	maxNested = 100     // blocks within blocks, and marks within marks
)

// tangled is what a wrapped parser panics with when the budget is spent; compile
// recovers it.
type tangled struct {
	at      int // byte of the body
	message string
}

// meter is the budget of one body, and what was noticed on the way.
type meter struct {
	left    int
	body    []byte
	from    int    // where an empty line was last looked for,
	end     int    // and where it is
	marks   int    // runs of * and _ so far
	closer  *stars // the run for which an opener is being sought
	asked   int    // the number of the run asked last
	notes   []*extast.Footnote
	unknown [][2]int // spans of footnote references that name none
}

var meterKey = parser.NewContextKey()

func meterOf(pc parser.Context) *meter { return pc.Get(meterKey).(*meter) }

func (m *meter) spend(steps, at int) {
	if m.left -= steps; m.left < 0 {
		panic(tangled{at, "too many marks here that could belong to one another"})
	}
}

// rest estimates how far a search from a byte goes if nothing stops it: to the
// next empty line. The last answer is kept: it holds for all of a block.
func (m *meter) rest(at int) int {
	at = min(max(at, 0), len(m.body))
	if at < m.from || at >= m.end {
		m.from, m.end = at, len(m.body)
		if i := bytes.Index(m.body[at:], []byte("\n\n")); i >= 0 {
			m.end = at + i
		}
	}
	return max(m.end-at, 0)
}

// to estimates a search from a byte that ends at one of some characters.
func (m *meter) to(at int, stops string) int {
	from := m.body[min(max(at, 0), len(m.body)):]
	if i := bytes.IndexAny(from, stops); i >= 0 {
		return i
	}
	return len(from)
}

// block wraps the parser of one kind of block.
type block struct{ parser.BlockParser }

func (b block) Open(parent ast.Node, r text.Reader, pc parser.Context) (ast.Node, parser.State) {
	m := meterOf(pc)
	_, at := r.Position()
	m.spend(1, at.Start)
	if len(pc.OpenedBlocks()) > maxNested {
		panic(tangled{at.Start, "blocks within blocks, more than a hundred deep"})
	}
	node, state := b.BlockParser.Open(parent, r, pc)
	if note, ok := node.(*extast.Footnote); ok {
		m.notes = append(m.notes, note)
		m.spend(len(m.notes), at.Start) // goldmark sorts them by insertion
	}
	return node, state
}

// inline wraps the parser of one kind of mark. cost is asked before it searches
// and gets the rest of the line.
type inline struct {
	parser.InlineParser
	cost func(m *meter, line []byte, at int) int
}

func (i inline) Parse(parent ast.Node, r text.Reader, pc parser.Context) ast.Node {
	m := meterOf(pc)
	line, at := r.PeekLine()
	m.spend(1+i.cost(m, line, at.Start), at.Start)
	return i.InlineParser.Parse(parent, r, pc)
}

// link is the one inline parser that must be told where a block ends.
type link struct{ inline }

func (l link) CloseBlock(parent ast.Node, r text.Reader, pc parser.Context) {
	l.InlineParser.(parser.CloseBlocker).CloseBlock(parent, r, pc)
}

// noteLink wraps the parser of footnote references, and keeps those that name no
// footnote.
type noteLink struct{ inline }

func (l noteLink) Parse(parent ast.Node, r text.Reader, pc parser.Context) ast.Node {
	line, at := r.PeekLine()
	node := l.inline.Parse(parent, r, pc)
	if node == nil && len(line) > 3 && line[0] == '[' && line[1] == '^' {
		if end := bytes.IndexAny(line[2:], "[]"); end > 0 && line[2+end] == ']' && !bytes.HasPrefix(line[end+3:], []byte("(")) {
			m := meterOf(pc)
			m.unknown = append(m.unknown, [2]int{at.Start, at.Start + end + 3})
		}
	}
	return node
}

// emphasis parses * and _ as goldmark does, and counts the steps from a closer
// back to its opener.
type emphasis struct{}

func (emphasis) Trigger() []byte { return []byte{'*', '_'} }

func (emphasis) Parse(_ ast.Node, r text.Reader, pc parser.Context) ast.Node {
	before := r.PrecendingCharacter()
	line, segment := r.PeekLine()
	m := meterOf(pc)
	m.marks++
	node := parser.ScanDelimiter(line, before, 1, &stars{m, m.marks, segment.Start})
	if node == nil {
		return nil
	}
	node.Segment = segment.WithStop(segment.Start + node.OriginalLength)
	r.Advance(node.OriginalLength)
	pc.PushDelimiter(node)
	return node
}

// stars is one run of * or _: which it is of the body's, and where it stands.
type stars struct {
	*meter
	number int
	at     int
}

func (s *stars) IsDelimiter(b byte) bool { return b == '*' || b == '_' }

// CanOpenCloser is asked of each run that may open, from the closer back. The
// runs passed over since the last question were steps too.
func (s *stars) CanOpenCloser(opener, closer *parser.Delimiter) bool {
	shut := closer.Processor.(*stars)
	if s.closer != shut {
		s.closer, s.asked = shut, shut.number
	}
	s.spend(1+max(s.asked-s.number, 0), s.at)
	s.asked = s.number
	return opener.Char == closer.Char
}

func (s *stars) OnMatch(consumes int) ast.Node { return ast.NewEmphasis(consumes) }

// paragraph wraps what is made of a paragraph once it is whole.
type paragraph struct {
	parser.ParagraphTransformer
	cost func(m *meter, lines *text.Segments) int
}

func (p paragraph) Transform(node *ast.Paragraph, r text.Reader, pc parser.Context) {
	m := meterOf(pc)
	lines := node.Lines()
	at := 0
	if lines.Len() > 0 {
		at = lines.At(0).Start
	}
	m.spend(p.cost(m, lines), at)
	p.ParagraphTransformer.Transform(node, r, pc)
}
