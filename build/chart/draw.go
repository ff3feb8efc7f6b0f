package chart

// Draw draws the root-to-leaf chart: leaf area on the line, roots under it,
// marks on it, and on the same days the water level and the deficit.
func (s SoilLine) Draw() Drawing { return Drawing{} }

// Draw draws every cell and the first one, how to read.
func (t Thumbs) Draw() ThumbDrawings { return ThumbDrawings{} }

// Draw draws the bars and their axis rows.
func (c RowChart) Draw() RowDrawings { return RowDrawings{} }

// Draw draws one curve with its band.
func (c Curve) Draw() Drawing { return Drawing{} }

// Draw draws the curves on one axis.
func (c Curves) Draw() Drawing { return Drawing{} }

// Draw draws the place.
func (p PlacePlot) Draw() Drawing { return Drawing{} }

// Draw draws the tree.
func (l Line) Draw() Drawing { return Drawing{} }

// Whisker is an interval on 0 to 100 %, for a table's cell; it is hidden from
// screen readers, the cell beside it has the figures.
func Whisker(i Interval) HTML { return "" }

// Pips is a row of crosses, one a loss, for the table of causes; beyond 20 it
// stops with a "+", the count stands beside it. Hidden from screen readers.
func Pips(n int) HTML { return "" }

// Icon is a mark at 22 px, for lists. Hidden from screen readers.
func Icon(m Mark) HTML { return "" }

// Key is a list of marks with their words.
func Key(items ...KeyItem) HTML { return "" }

// WaterKey is the key to the water level, wettest first.
func WaterKey() HTML { return "" }

// Emblem is the leaf lying on the soil line, 96 × 60, drawn at any size.
// Hidden from screen readers.
func Emblem() HTML { return "" }

// NiceDays is the end of a day axis that holds day d: the next whole week, at
// least 14; from 84 on the next second week, from 364 on the next fourth.
func NiceDays(d int) int { return 0 }
