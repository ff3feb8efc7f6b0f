package main

import (
	"encoding/json"
	"fmt"
	"io"
	"math"
	"strings"

	"wardian/build/cohort"
	"wardian/content/measure"
)

// The object that wardian forecast --json prints; schemas/forecast.json tells its
// keys. What doesn't exist is null.
type forecastObject struct {
	Horizon         int              `json:"horizon"`
	Planned         int              `json:"planned"`
	Imports         []forecastImport `json:"imports"`
	Expected        *float64         `json:"expected"`
	Range80         *[2]int          `json:"range_80"`
	Range95         *[2]int          `json:"range_95"`
	OrderFor        *orderFor        `json:"order_for"`
	CostPerSurvivor *costPerSurvivor `json:"cost_per_survivor"`
	Reason          *string          `json:"reason"`
}

type forecastImport struct {
	ID    string  `json:"id"`
	Lines float64 `json:"lines"`
	Alive float64 `json:"alive"`
}

type orderFor struct {
	Alive   int  `json:"alive"`
	Planned *int `json:"planned"`
}

type costPerSurvivor struct {
	Expected json.Number  `json:"expected"`
	Low      *json.Number `json:"low"`
	High     *json.Number `json:"high"`
}

func jsonForecast(out io.Writer, o cohort.Outlook, want int) error {
	f := forecastObject{Horizon: o.Horizon, Planned: o.Planned, Imports: []forecastImport{}}
	for _, p := range o.Fit {
		f.Imports = append(f.Imports, forecastImport{p.Import.ID, ninth(p.Counts.Lines), ninth(p.Counts.Alive)})
	}
	var reasons []string
	if o.Known {
		expected := ninth(o.Expected)
		f.Expected = &expected
		f.Range80, f.Range95 = &[2]int{o.Range.Low, o.Range.High}, &[2]int{o.Wide.Low, o.Wide.High}
		if o.Caveat != "" {
			reasons = append(reasons, o.Caveat)
		}
		if want > 0 {
			f.OrderFor = &orderFor{Alive: want}
			if n, ok := o.Needed(want); ok {
				f.OrderFor.Planned = &n
			} else {
				reasons = append(reasons, fmt.Sprintf("more than %d plants would have to be ordered.", cohort.MostPlanned))
			}
		}
		if c := o.Cost; c.Each {
			f.CostPerSurvivor = &costPerSurvivor{Expected: *number(c.Expected, true), Low: number(c.Low, c.HasLow), High: number(c.High, c.HasHigh)}
		} else {
			reasons = append(reasons, strings.TrimSuffix(costWords(o), "\n")+".")
		}
	} else {
		reasons = append(reasons, o.Refusal)
	}
	if len(reasons) > 0 {
		words := strings.Join(reasons, " ")
		f.Reason = &words
	}
	e := json.NewEncoder(out)
	e.SetEscapeHTML(false)
	return e.Encode(f)
}

// ninth rounds to nine decimals: what is behind them differs between machines.
func ninth(x float64) float64 { return math.Round(x*1e9) / 1e9 }

// number is an amount without its currency, exact; nil where there is none.
func number(m measure.Money, ok bool) *json.Number {
	if !ok {
		return nil
	}
	n := json.Number(m.Amount.String())
	return &n
}
