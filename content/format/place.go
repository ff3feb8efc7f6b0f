package format

// Place is a file under places/: where plants stand.
var Place = File{
	Name: "place", Path: "places/ID.md",
	About: "Where plants stand: a soak tub, a humidity bin, a cabinet, a shelf.",
	Keys: with([]Key{
		{Name: "name", Value: Value{Kind: Text}, Default: "its ID", Example: "Clear tote over the heating cable", About: "What the place is called."},
		{Name: "stage", Value: Value{Kind: Choice, Words: []Word{
			{"soak", "in water"}, {"bin", "near saturation"}, {"step-down", "in between"}, {"room", "the air of the room"}}}, Required: true, Example: "bin",
			About: "How wet it is there."},
		{Name: "humidity", Value: Value{Kind: Humidity}, Example: "98%", About: "The typical humidity, used where nothing was measured."},
		{Name: "temperature", Value: Value{Kind: Temperature}, Example: "25 C", About: "The typical temperature, used where nothing was measured."},
		{Name: "bottom-heat", Value: Value{Kind: YesNo}, Default: "no", Example: "yes", About: "Whether it is warmed from below."},
		{Name: "quarantine", Value: Value{Kind: YesNo}, Default: "no", Example: "yes", About: "Whether plants stand apart here."},
		{Name: "check-every", Value: Value{Kind: Days}, Example: "2 days", About: "How often plants here are looked at."},
		{Name: "readings", Value: Value{Kind: Map, Keys: []Key{
			{Name: "file", Value: Value{Kind: Text}, Required: true, Example: `"readings/tote*.csv"`,
				About: "The logger's file, from the diary's folder; * stands for anything. Overlapping pieces are welcome."},
			{Name: "time", Value: Value{Kind: Text}, Required: true, Example: "Time", About: "The heading of the column of times."},
			{Name: "temperature", Value: Value{Kind: Text}, Required: true, Example: `"Temp (C)"`, About: "The heading of the column of temperatures; its unit may stand in brackets."},
			{Name: "humidity", Value: Value{Kind: Text}, Required: true, Example: `"RH %"`, About: "The heading of the column of humidities."},
		}}, Example: `{file: "readings/tote*.csv", time: Time, temperature: "Temp (C)", humidity: "RH %"}`,
			About: "What a logger wrote here, and which columns hold what."},
	}),
}
