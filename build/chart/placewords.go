package chart

func (p PlacePlot) key(cal calendar) HTML {
	var es []keyEntry
	for _, e := range p.Notes {
		w := cal.words(e.Day) + ": " + e.Words
		if e.Note != "" {
			w += " (" + e.Note + ")"
		}
		es = append(es, keyEntry{day: e.Day, icon: string(Icon(e.Mark)), words: w})
	}
	return keyList("", es)
}

// stoodRows are who stood there: a line of words over a bar, on the same days.
func (p PlacePlot) stoodRows(cal calendar, days float64) HTML {
	if len(p.Stood) == 0 {
		return ""
	}
	b := []byte(`<ul class="plot stood">`)
	for _, s := range p.Stood {
		c := newCanvas(days, 16)
		c.openHidden("")
		cal.uprights(c, -2, 16)
		to := min(s.To, int(days))
		c.path(stageClass[p.Stage])
		c.box(float64(s.From), float64(to), 10-levelPx(p.Stage)/2.4, 10)
		c.soil("soil thin", float64(s.From), float64(to), 10)
		if s.Mark.known() {
			c.sign(sign{day: float64(to), off: endPx, mark: s.Mark}, 10)
		}
		b = append(b, `<li><span class="id">`...)
		b = appendEsc(b, s.Number)
		b = append(b, `</span> <span class="nm">`...)
		b = appendEsc(b, s.Name)
		b = append(b, `</span> <span class="q">`...)
		b = appendEsc(b, cal.words(s.From)+" to "+cal.words(s.To))
		b = append(b, `</span>`...)
		b = append(b, c.close()...)
		b = append(b, `</li>`...)
	}
	return HTML(append(b, `</ul>`...))
}

func (p PlacePlot) tables(cal calendar) []Table {
	var out []Table
	last := -1
	for _, ds := range [...][]PlaceDay{p.DeficitKPa, p.TemperatureC, p.HumidityPct} {
		if n := len(ds); n > 0 {
			last = max(last, ds[n-1].Day)
		}
	}
	rows := make([][]string, last+1)
	put := func(day, col int, s string) {
		if rows[day] == nil {
			rows[day] = make([]string, 8)
			rows[day][0] = cal.iso(day)
		}
		rows[day][col] = s
	}
	for _, d := range p.DeficitKPa {
		put(d.Day, 1, kPaWords(d.Mean))
	}
	for i, ds := range [...][]PlaceDay{p.TemperatureC, p.HumidityPct} {
		for _, d := range ds {
			put(d.Day, 2+3*i, f1(d.Mean))
			if d.HasRange {
				put(d.Day, 3+3*i, f1(d.Lowest))
				put(d.Day, 4+3*i, f1(d.Highest))
			}
		}
	}
	if last >= 0 {
		t := Table{Caption: "By day, in the diary's time zone. “< 0.1” kPa is less than a sensor can tell and is drawn at 0.05.", Columns: []Column{text1("day"), numeric("deficit, kPa"), numeric("mean °C"), numeric("lowest °C"), numeric("highest °C"), numeric("mean % RH"), numeric("lowest % RH"), numeric("highest % RH")}}
		for _, r := range rows {
			if r != nil {
				t.Rows = append(t.Rows, r)
			}
		}
		out = append(out, t.dropEmpty())
	}
	if len(p.Stood) > 0 {
		t := Table{Caption: "Who stood there.", Columns: []Column{text1("number"), text1("name"), text1("from"), text1("to"), text1("left as")}}
		for _, s := range p.Stood {
			t.Rows = append(t.Rows, []string{s.Number, s.Name, cal.iso(s.From), cal.iso(s.To), s.Mark.Word()})
		}
		out = append(out, t.dropEmpty())
	}
	if len(p.Notes) > 0 {
		t := Table{Caption: "What happened there.", Columns: []Column{text1("day"), text1("mark"), text1("words"), text1("note")}}
		for _, e := range p.Notes {
			t.Rows = append(t.Rows, []string{cal.iso(e.Day), e.Mark.Word(), e.Words, e.Note})
		}
		out = append(out, t.dropEmpty())
	}
	return out
}

func (p PlacePlot) desc(cal calendar) string {
	if p.Desc != "" {
		return p.Desc
	}
	out := ""
	for _, q := range []struct {
		ds         []PlaceDay
		what, unit string
	}{{p.DeficitKPa, "Deficit", "kPa"}, {p.TemperatureC, "Temperature", "°C"}, {p.HumidityPct, "Humidity", "%"}} {
		if len(q.ds) == 0 {
			continue
		}
		lo, hi := q.ds[0].Mean, q.ds[0].Mean
		for _, d := range q.ds {
			lo, hi = min(lo, d.Mean), max(hi, d.Mean)
		}
		out += q.what + " on " + plural(len(q.ds), "day", "days") + ": day means from " + f2(lo) + " to " + f2(hi) + " " + q.unit + ". "
	}
	if n := len(p.Stood); n > 0 {
		out += plural(n, "plant", "plants") + " stood there. "
	}
	return out + "The tables hold all numbers."
}
