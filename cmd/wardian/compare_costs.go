package main

import (
	"fmt"
	"strings"
	"text/tabwriter"

	"wardian/build/cohort"
	"wardian/build/opendata"
)

// costsOf are a comparison's costs, where they were asked for. That they stand on
// no page is said beside them, on the side of the talk, so that it is said over a
// table and over JSON alike.
func (q comparing) costsOf(v voice, c *cohort.Cohort, r cohort.Comparison) *opendata.Costs {
	if !q.costs {
		return nil
	}
	costs := opendata.Costs{Groups: c.GroupCosts(r), Published: c.Diary.Settings.PublishCosts}
	if !costs.Published {
		v.say("these costs are private: the diary doesn't publish them, and no page tells them")
	}
	return &costs
}

// costTable tells what each group cost, and each of its survivors.
func costTable(b *strings.Builder, r cohort.Comparison, costs opendata.Costs) {
	b.WriteString("\n")
	t := tabwriter.NewWriter(b, 0, 0, 2, ' ', 0)
	fmt.Fprintf(t, "%s\tlanded\trefunds\tfor each survivor on day %d\n", r.By.Word, r.Horizon)
	for n, g := range costs.Groups {
		landed, refunds := "", ""
		if g.Unpriced == 0 {
			landed, refunds = g.Landed.String(), g.Refunds.String()
		}
		fmt.Fprintf(t, "%s\t%s\t%s\t%s\n", r.Groups[n].Name, landed, refunds, eachWords(g))
	}
	t.Flush()
	b.WriteString("\nlanded less refunds, the lost ones' cost in it, over those alive on the day\n")
	if m := r.Landmark; m != nil && m.Lost+m.OnArrival+m.Unseen+m.Listed > 0 {
		b.WriteString("what was paid for those left out is in no group, so that these costs are too low\n")
	} else if r.Undated > 0 || r.FollowedLate > 0 {
		b.WriteString("what was paid for those left out is in no group\n")
	}
}

func eachWords(g cohort.GroupCost) string {
	each := g.PerSurvivor
	switch why := opendata.WithoutCost(g); {
	case why != "":
		return why
	case each.OpenEnd:
		return "from " + each.Low.String() + " on"
	case each.Low == each.High:
		return each.Low.String()
	}
	return each.Low.Amount.String() + " to " + each.High.String()
}
