package content

import (
	"net/url"
	"strings"
	"time"
	_ "time/tzdata" // the same days on every machine, whatever zones it knows

	"wardian/content/format"
	"wardian/content/header"
	"wardian/content/measure"
	"wardian/content/source"
)

// settings reads diary.yaml.
func (l *loader) settings(f *source.File) {
	o := opened{header: header.Whole(f, l.report)}
	c := l.top(o, &format.Diary, format.Diary.Keys)
	s := &l.diary.Settings
	s.Page = c.page(o)
	s.Name, s.Grower, s.About, s.Licence = c.line("name"), c.line("grower"), c.line("about"), c.line("licence")
	if s.Address = c.web("address"); s.Address != "" && !strings.HasSuffix(s.Address, "/") {
		s.Address += "/"
	}
	s.Contact = c.web("contact")
	if zone := c.zone("time-zone"); zone != nil {
		s.Zone = zone
	}
	if v, key := c.value("currency", format.Currency); v != nil {
		s.Currency = c.currencyOf(v, &key.Value)
	}
	l.noMoney = o.header.Broken || c.has("currency") && s.Currency == ""
	if u := c.under("units"); u != nil {
		s.Units = measure.Units{Inches: u.choice("length") == "in", Fahrenheit: u.choice("temperature") == "F"}
	}
	if p := c.under("publish"); p != nil {
		s.PublishCosts, s.PublishTimes, s.HoldBack = p.yes("costs"), p.yes("times"), p.days("hold-back", 0)
	}
	if t := c.under("thresholds"); t != nil {
		s.Landmark, s.Horizon = t.days("landmark", s.Landmark), t.days("horizon", s.Horizon)
		s.NoRootBy, s.SeenWithin = t.days("no-root-by", s.NoRootBy), t.days("seen-within", s.SeenWithin)
	}
	fields, want := c.table("rules")
	for i := range fields {
		v := &fields[i].Value
		if v.Faulty || v.Kind == header.Empty {
			continue
		}
		if on, ok := parse(c.reader, v, want.Item, measure.ParseYesNo); ok && !on {
			s.RulesOff = append(s.RulesOff, fields[i].Key)
		}
	}
	s.Spans = c.spans
}

// standard is what holds where diary.yaml says nothing.
func standard() Settings {
	return Settings{Zone: time.UTC, Landmark: 3, Horizon: 42, NoRootBy: 21, SeenWithin: -1}
}

// zone reads a time zone by its name in the IANA database.
func (c *record) zone(name string) *time.Location {
	v, key := c.value(name, format.TimeZone)
	if v == nil {
		return nil
	}
	text, ok := c.scalarText(v, &key.Value)
	if !ok {
		return nil
	}
	// "Local" would be a zone of the machine's, and another on the next one.
	if zone, err := time.LoadLocation(text); err == nil && text != "Local" {
		return zone
	}
	hint := "write the continent and the city, such as " + key.Example
	city := strings.ReplaceAll(text, " ", "_")
	for _, continent := range []string{"", "Europe/", "America/", "Asia/", "Africa/", "Australia/", "Pacific/", "Atlantic/"} {
		if _, err := time.LoadLocation(continent + city); err == nil && continent+city != text {
			hint = "nearest: " + continent + city
			break
		}
	}
	c.fault("not-a-time-zone", v.Span, "there is no time zone "+quoted(text), "a name of the IANA time zone database such as "+key.Example, hint)
	return nil
}

// currencyOf reads the code of a currency.
func (rd *reader) currencyOf(v *header.Value, want *format.Value) string {
	code, ok := rd.scalarText(v, want)
	if !ok {
		return ""
	}
	if currencyCode(code) {
		return code
	}
	hint := "write its three letters, such as NOK"
	if up := strings.ToUpper(code); currencyCode(up) {
		hint = "write " + up
	}
	rd.fault("not-a-currency", v.Span, quoted(code)+" isn't the code of a currency", want.Kind.Expected(), hint)
	return ""
}

// currencyCode says whether a text is three capital letters. Which codes are in
// use isn't judged: the list changes, and a diary outlives it.
func currencyCode(s string) bool {
	return len(s) == 3 && strings.Trim(s, "ABCDEFGHIJKLMNOPQRSTUVWXYZ") == ""
}

// web reads an address on the web.
func (c *record) web(name string) string {
	v, key := c.value(name, format.Web)
	if v == nil {
		return ""
	}
	text, ok := c.scalarText(v, &key.Value)
	if !ok {
		return ""
	}
	u, err := url.Parse(text)
	if err == nil && (u.Scheme == "https" || u.Scheme == "http") && u.Host != "" && !strings.ContainsAny(text, " \"<>") {
		return text
	}
	hint := "write it in full, such as " + key.Example
	if err == nil && u.Scheme == "" && strings.Contains(text, ".") && !strings.ContainsAny(text, " \"<>@") {
		hint = "write https://" + strings.TrimLeft(text, "/")
	}
	c.fault("not-an-address", v.Span, quoted(text)+" isn't an address on the web", key.Value.Kind.Expected(), hint)
	return ""
}

// quoted puts what a message cites in quotes, cut to a message's length.
func quoted(words string) string { return `"` + short(words) + `"` }
