package page

import (
	"fmt"

	"wardian/build/chart"
	"wardian/build/cohort"
	"wardian/build/said"
)

// boxesData is the picture of losses whose days are open.
type boxesData struct {
	Says string
	picture
}

// boxesOf draws a scope's losses where looks leave their days open; nil where few
// enough of them are open that the curve says it better.
func boxesOf(scope cohort.Scope) *boxesData {
	b, shown := scope.Boxes()
	if !shown {
		return nil
	}
	drawing := chart.Boxes{Head: chart.Head{ID: "boxes", Title: "When losses may have come, " + scope.Name}, N: len(scope.Lines)}
	for _, l := range scope.Lines {
		drawing.Until = max(drawing.Until, l.Day)
	}
	drawing.Head.Days = axisDays(drawing.Until)
	for _, box := range b.Boxes.Boxes {
		if !box.Open {
			drawing.Boxes = append(drawing.Boxes, chart.Box{From: int(box.Left), To: int(box.Right), Share: box.Mass})
		}
	}
	says := fmt.Sprintf("Of %s, %s found more than a week after the last look that surely saw the plant alive. The share alive falls by a box’s height, and the true day lies somewhere in the box. No limits and no test go with it.",
		said.NounInWords(b.Lost, "loss", "losses"), said.NounInWords(b.Wide, "was", "were"))
	if !b.Unique {
		says += " Other heights would fit these looks as well."
	}
	return &boxesData{says, drawn(drawing.Draw())}
}
