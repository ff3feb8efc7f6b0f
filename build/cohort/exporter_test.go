package cohort

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// Counted by hand, box by box.
func TestTheRecordOfEachExporter(t *testing.T) {
	c := kept(t, "import a1 2026-03-09 {exporter: exporter A | dispatched: 2026-03-02 | received: 4 | short: {Hoya obovata: 2} | box: 9 C | claim-until: 2026-03-12 | refunds: [{date: 2026-03-20, amount: 30, for: short}, {date: 2026-03-20, amount: 12.50, for: x-1}]}\n"+
		"x-1: 0 lost cold\n"+ // dead on arrival, refunded
		"x-2: 0 firm; 3 lost rot\n"+ // on the last day of the window
		"x-3: 0 firm; 4 lost rot\n"+ // a day late
		"x-4: 0 firm; 42 firm\n"+
		"import a2 2026-02-09 {exporter: exporter A}\n"+
		"y-1: 0 firm; 42 firm\n"+
		"import b1 2026-03-01..2026-03-31 {exporter: exporter B | dispatched: 2026-02-20..2026-02-22 | followed-from: 2026-03-20}\n"+
		"z-1: 20 firm; 30 firm\n"+
		"import near 2026-03-09 {local: yes}\n"+
		"n-1: 0 firm\n"+
		"import who 2026-03-09\n"+
		"w-1: 0 firm\n")
	records, nearby := c.Exporters()
	assert.Equal(t, 1, nearby)
	require.Len(t, records, 3)
	a, b, nobody := records[0], records[1], records[2]
	assert.Equal(t, []string{"exporter A", "exporter B", ""}, []string{a.Exporter, b.Exporter, nobody.Exporter})
	require.Len(t, a.Parcels, 2)
	first, second := a.Parcels[0], a.Parcels[1]
	assert.Equal(t, "a2", first.Import.ID, "by arrival")
	assert.False(t, first.DaysKnown)
	assert.Equal(t, []int{1, 0, 0, 0, 0}, []int{first.Sent, first.Short, first.OnArrival, first.Claimable, first.Refunded})
	assert.Equal(t, "0.00 NOK", first.Refunds.String())
	assert.Equal(t, []int{4, 2, 1, 4, 3}, []int{second.Sent, second.Short, second.OnArrival, second.Claimable, second.Refunded}, "two short, one dead, one within the window")
	assert.Equal(t, []int{7, 7}, []int{second.DaysLeast, second.DaysMost})
	assert.Equal(t, "42.50 NOK", second.Refunds.String())
	assert.False(t, b.Parcels[0].OnArrivalKnown || b.Parcels[0].SentKnown, "a late diary lists survivors only")
	// From the 22nd of February to the 1st of March, and from the 20th to the 31st.
	assert.Equal(t, []int{7, 39}, []int{b.Parcels[0].DaysLeast, b.Parcels[0].DaysMost})
	records, nearby = kept(t, "import near 2026-03-09 {local: yes}\nn-1: 0 firm\n").Exporters()
	assert.Empty(t, records)
	assert.Equal(t, 1, nearby)
}
