package survival

import (
	"fmt"
	"maps"
	"math"
	"slices"
	"sync"
)

// A table larger than 2 × 2 is filled column by column. What is left of the
// row sums is a node; ways to one node with one product of cells are merged,
// and a node whose completions all count, or none, is settled at once (the
// network of Mehta and Patel 1983, J Am Stat Assoc 78:427-434).

// maxRows bounds the shorter side of a table.
const maxRows = 8

// maxWork bounds the sums and arcs looked at: some tenths of a second.
const maxWork = 1 << 22

// node is the rows' remaining sums, ascending.
type node [maxRows]int

// FisherTable is the exact test of a table of any size, by the chance of the
// tables with these margins that are no more likely than the one seen (Freeman
// and Halton 1951, Biometrika 38:141-149). ok is false where the network grows
// too large, and for a table without two rows and two columns that hold
// anything: there is nothing to test. It panics at a count below 0 or ragged
// rows.
func FisherTable(table [][]int) (p float64, ok bool) {
	rows, columns, seen := margins(table)
	if len(rows) < 2 || len(columns) < 2 || len(rows) > maxRows {
		return 0, false
	}
	w := network{rows: len(rows), columns: columns, bounds: make([]map[node][2]float64, len(columns)+1)}
	var start node
	copy(start[:], rows)
	whole := w.completions(start, 0)
	now := map[node][]reach{start: {{0, 1}}} // logarithms of products of 1/cell!
	for column := range columns {
		next := map[node][][]reach{}
		// One order, so that a p is the same to its last bit.
		for _, left := range slices.SortedFunc(maps.Keys(now), func(a, b node) int { return slices.Compare(a[:], b[:]) }) {
			sums := now[left]
			w.splits(left, column, func(to node, shift float64) bool {
				least, most := w.bound(to, column+1)
				// sums ascend: the first so many count whatever follows, the last
				// so many don't, and those between are carried on.
				low, _ := slices.BinarySearchFunc(sums, seen+alike-most-shift, after)
				high, _ := slices.BinarySearchFunc(sums, seen+alike-least-shift, after)
				if low > 0 {
					rest := shift + w.completions(to, column+1) - whole
					for _, r := range sums[:low] {
						p += r.ways * math.Exp(r.sum+rest)
					}
				}
				if low < high {
					list := slices.Clone(sums[low:high])
					for i := range list {
						list[i].sum += shift
					}
					next[to] = append(next[to], list)
				}
				w.work += high
				return w.work <= maxWork
			})
			if w.work > maxWork {
				return 0, false
			}
		}
		now = make(map[node][]reach, len(next))
		for left, lists := range next {
			now[left] = mergeAll(lists)
		}
	}
	return math.Min(1, p), true
}

// after orders a sum that equals the target before it, so that a search finds
// the first beyond.
func after(r reach, target float64) int {
	if r.sum <= target {
		return -1
	}
	return 1
}

// network knows the columns still to be filled.
type network struct {
	rows    int
	columns []int
	bounds  []map[node][2]float64 // by column
	work    int                   // sums and arcs looked at so far
}

// splits calls f with every node that a column can lead to and the logarithm
// of the product of 1/cell! on the way.
func (w *network) splits(left node, column int, f func(to node, shift float64) bool) {
	splits(w.columns[column], left[:w.rows], make([]int, w.rows), func(part []int) bool {
		to, shift := left, 0.0
		for i, cell := range part {
			to[i] -= cell
			shift -= lnFactorial(cell)
		}
		slices.Sort(to[:w.rows])
		w.work++
		return w.work <= maxWork && f(to, shift)
	})
}

// bound is the least and the largest logarithm among a node's completions.
func (w *network) bound(left node, column int) (least, most float64) {
	if column == len(w.columns) {
		return 0, 0
	}
	if b, known := w.bounds[column][left]; known {
		return b[0], b[1]
	}
	least, most = math.Inf(1), math.Inf(-1)
	w.splits(left, column, func(to node, shift float64) bool {
		l, m := w.bound(to, column+1)
		least, most = math.Min(least, shift+l), math.Max(most, shift+m)
		return true
	})
	if w.bounds[column] == nil {
		w.bounds[column] = map[node][2]float64{}
	}
	w.bounds[column][left] = [2]float64{least, most}
	return least, most
}

// completions is the logarithm of the sum, over all completions of a node, of
// the products of 1/cell!: n!/(Π rows! · Π columns!).
func (w *network) completions(left node, column int) float64 {
	n, ln := 0, 0.0
	for _, r := range left[:w.rows] {
		n += r
		ln -= lnFactorial(r)
	}
	for _, c := range w.columns[column:] {
		ln -= lnFactorial(c)
	}
	return ln + lnFactorial(n)
}

// margins gives the row sums (ascending) and column sums that aren't 0, rows
// being the shorter side, and the logarithm of the product of 1/cell!.
func margins(table [][]int) (rows, columns []int, seen float64) {
	for i, row := range table {
		if len(row) != len(table[0]) {
			panic("survival: a table's rows must have one length")
		}
		rows = append(rows, 0)
		for j, cell := range row {
			if cell < 0 {
				panic(fmt.Sprintf("survival: no table has a count of %d", cell))
			}
			if i == 0 {
				columns = append(columns, 0)
			}
			rows[i] += cell
			columns[j] += cell
			seen -= lnFactorial(cell)
		}
	}
	empty := func(n int) bool { return n == 0 }
	rows, columns = slices.DeleteFunc(rows, empty), slices.DeleteFunc(columns, empty)
	if len(rows) > len(columns) {
		rows, columns = columns, rows
	}
	slices.Sort(rows)
	slices.Sort(columns) // the widest last, when there is least choice
	return rows, columns, seen
}

// lnFactorials holds the logarithms of the factorials most asked for.
var lnFactorials = sync.OnceValue(func() *[1024]float64 {
	var table [1024]float64
	for n := range table {
		table[n], _ = math.Lgamma(float64(n + 1))
	}
	return &table
})

func lnFactorial(n int) float64 {
	if table := lnFactorials(); n < len(table) {
		return table[n]
	}
	ln, _ := math.Lgamma(float64(n + 1))
	return ln
}
