package format

// Diary is diary.yaml, the one file of a diary that is YAML from end to end.
var Diary = File{
	Name: "diary", Path: "diary.yaml",
	About: "What the diary is called, where its site will stand, and what holds for all of it.",
	Keys: with([]Key{
		{Name: "name", Value: Value{Kind: Text}, Required: true, Example: "North Sill",
			About: "The diary's name, at the head of every page."},
		{Name: "grower", Value: Value{Kind: Text}, Example: "M.",
			About: "Who keeps it. An alias will do."},
		{Name: "about", Value: Value{Kind: Text}, Example: "small imports on a north-facing sill",
			About: "A line under the name."},
		{Name: "address", Value: Value{Kind: Web}, Example: "https://example.org/sill/",
			About: "Where the site will stand. Feeds and share pictures need it."},
		{Name: "time-zone", Value: Value{Kind: TimeZone}, Required: true, Example: "Europe/Oslo",
			About: "The time zone in which days are counted, by its name in the IANA database."},
		{Name: "currency", Value: Value{Kind: Currency}, Example: "NOK",
			About: "The currency of amounts written without one. Required where there is money in the diary."},
		{Name: "units", Value: Value{Kind: Map, Keys: []Key{
			{Name: "length", Value: Value{Kind: Choice, Words: []Word{{"cm", "centimetres"}, {"in", "inches"}}}, Default: "cm", Example: "cm",
				About: "The unit of lengths written without one, and of those shown."},
			{Name: "temperature", Value: Value{Kind: Choice, Words: []Word{{"C", "degrees Celsius"}, {"F", "degrees Fahrenheit"}}}, Default: "C", Example: "C",
				About: "The unit of temperatures written without one, and of those shown."},
		}}, Example: "{length: cm, temperature: C}", About: "The units a bare number takes."},
		{Name: "contact", Value: Value{Kind: Web}, Example: "https://example.org/letters/",
			About: "Where readers can write."},
		{Name: "licence", Value: Value{Kind: Text}, Example: "CC-BY-4.0",
			About: "The licence of the words, pictures and data on the site, by its SPDX short name."},
		{Name: "publish", Value: Value{Kind: Map, Keys: []Key{
			{Name: "costs", Value: Value{Kind: YesNo}, Default: "no", Example: "yes", About: "Whether prices and costs are shown."},
			{Name: "times", Value: Value{Kind: YesNo}, Default: "no", Example: "yes", About: "Whether times of day are shown."},
			{Name: "hold-back", Value: Value{Kind: Days}, Default: "0 days", Example: "14 days",
				About: "Nothing younger than this goes out: an empty flat is nobody's business."},
		}}, Example: "{costs: no, times: no, hold-back: 0 days}", About: "What goes out, and when."},
		{Name: "thresholds", Value: Value{Kind: Map, Keys: []Key{
			{Name: "landmark", Value: Value{Kind: Days}, Default: "3 days", Example: "3 days",
				About: "The day up to which early treatment forms groups."},
			{Name: "horizon", Value: Value{Kind: Days}, Default: "42 days", Example: "42 days",
				About: "The day at which everything in one comparison ends."},
			{Name: "no-root-by", Value: Value{Kind: Days}, Default: "21 days", Example: "21 days",
				About: "A plant without a new root by this day is named."},
			{Name: "seen-within", Value: Value{Kind: Days}, Default: "the larger of 7 days and twice the place's check-every", Example: "14 days",
				About: "How long after its last look a plant still counts as watched."},
		}}, Example: "{landmark: 3 days, horizon: 42 days, no-root-by: 21 days}", About: "The days on which figures turn."},
		{Name: "rules", Value: Value{Kind: Table, Naming: "the name of a rule", Item: &Value{Kind: YesNo}}, Example: "{chilling: no}",
			About: "Rules of the day's work that are turned off."},
	}),
}
