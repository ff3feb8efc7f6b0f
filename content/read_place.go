package content

import (
	"wardian/content/format"
	"wardian/content/source"
)

// place reads a file under places/.
func (l *loader) place(f *source.File, id string) *Place {
	o := l.open(f)
	c := l.top(o, &format.Place, format.Place.Keys)
	p := &Place{ID: id, Name: c.line("name"), Stage: Room}
	if p.Name == "" {
		p.Name = id
	}
	word := c.choice("stage")
	for _, s := range []Stage{Soak, Bin, StepDown, Room} {
		if s.String() == word {
			p.Stage = s
		}
	}
	p.Humidity, p.Temperature = c.humidity("humidity"), c.temperature("temperature")
	p.BottomHeat, p.Quarantine, p.CheckEvery = c.yes("bottom-heat"), c.yes("quarantine"), c.days("check-every", 0)
	if r := c.under("readings"); r != nil {
		l.logger(p, r)
	}
	p.Page = c.page(o)
	return p
}

// specimen reads a file under specimens/. Whether its name and its import may
// be missing is known only when all cuts are: a section has its parent's.
func (l *loader) specimen(f *source.File, id string) *Specimen {
	o := l.open(f)
	c := l.top(o, &format.Specimen, sectionKeys)
	s := &Specimen{ID: id, Name: c.line("name"), LeafWhole: true}
	if m, ok := c.id("import"); ok {
		if s.Import = l.diary.Import(m.ID); s.Import == nil {
			l.unknownID(f, m, "import", l.importIDs())
		}
	}
	s.Price, s.Local = c.amount("price"), c.amount("local-price")
	s.Size, s.SizeSold = c.choice("size"), c.line("size-as-sold")
	s.LeafShape = c.choice("leaf-shape")
	s.LeafWhole = c.choice("leaf-length") != "sinus to tip"
	if k, ok := scalar(c, "leaf-factor", format.Number, parseFactor); ok {
		s.Factor = &k
	}
	s.Received, s.Renamed = c.line("received-as"), c.day("renamed")
	s.Climate = c.choice("climate")
	fields, want := c.table("traits")
	for i := range fields {
		if v := &fields[i].Value; !v.Faulty {
			if words, ok := c.scalarText(v, want.Item); ok {
				s.Traits = append(s.Traits, Trait{Word: fields[i].Key, Value: words})
			}
		}
	}
	sortTraits(s.Traits)
	if s.Renamed.Known() && s.Received == "" && !o.header.Broken {
		c.fault("key-elsewhere", c.keyOf("renamed"), "renamed stands without received-as", "the label's words beside the day of the new name", "write received-as: and the name that it came with")
	}
	s.Page = c.page(o)
	l.whole(s, o.header.Broken)
	return s
}
