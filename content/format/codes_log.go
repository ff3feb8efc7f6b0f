package format

// logged is a place with a logger and what the logger wrote.
func logged(csv string) string {
	return "-- places/shelf.md --\n---\nstage: room\nreadings:\n  file: \"readings/shelf*.csv\"\n  time: Time\n  temperature: T\n  humidity: RH\n---\n-- readings/shelf-1.csv --\n" + csv
}

// logCodes are the findings about what loggers wrote.
var logCodes = []Code{
	{Name: "no-log", Title: "a logger's file that isn't there",
		About: "A place names its logger's files by their path from the diary's folder on; a * stands for anything.",
		Wrong: "-- places/shelf.md --\n---\nstage: room\nreadings:\n  file: \"readings/shelf*.csv\"\n  time: Time\n  temperature: T\n  humidity: RH\n---\n",
		Right: logged("Time,T,RH\n2026-04-06 12:00,21,50\n")},
	{Name: "log-unnamed", Title: "a logger's file that no place names", Warning: true,
		About: "A log is read for the place that names it. One that none names is passed over.",
		Wrong: logged("Time,T,RH\n2026-04-06 12:00,21,50\n") + "-- readings/self-2.csv --\nTime,T,RH\n2026-04-07 12:00,21,50\n",
		Right: logged("Time,T,RH\n2026-04-06 12:00,21,50\n") + "-- readings/shelf-2.csv --\nTime,T,RH\n2026-04-07 12:00,21,50\n"},
	{Name: "log-conflict", Title: "pieces of one log that differ", Warning: true,
		About: "Pieces of a log may overlap, as long as they agree. Where they don't, one of them is probably another place's; the first by name is kept.",
		Wrong: logged("Time,T,RH\n2026-04-06 12:00,21,50\n") + "-- readings/shelf-2.csv --\nTime,T,RH\n2026-04-06 12:00,25,98\n",
		Right: logged("Time,T,RH\n2026-04-06 12:00,21,50\n") + "-- readings/shelf-2.csv --\nTime,T,RH\n2026-04-06 12:00,21,50\n"},
	{Name: "logger-not-text", Title: "a logger's file that isn't UTF-8",
		About: "Some programs save in an encoding of their own. Open it in a spreadsheet and save it as CSV, UTF-8."},
	{Name: "logger-column", Title: "a column that the logger's file doesn't have",
		About: "A place names the columns as they are headed in the file.",
		Wrong: logged("Clock,T,RH\n2026-04-06 12:00,21,50\n"), Right: logged("Time,T,RH\n2026-04-06 12:00,21,50\n")},
	{Name: "logger-days", Title: "days whose order nobody can tell",
		About: "06/04/2026 is in April or in June, by who reads it. Where nothing in the file tells, none of it is read.",
		Wrong: logged("Time,T,RH\n06/04/2026 12:00,21,50\n"), Right: logged("Time,T,RH\n2026-04-06 12:00,21,50\n")},
	{Name: "logger-row", Title: "rows that make no sense", Warning: true,
		About: "A row whose time or figures can't be, such as a humidity above 100 %, is left out.",
		Wrong: logged("Time,T,RH\n2026-04-06 12:00,21,150\n2026-04-06 13:00,21,50\n"), Right: logged("Time,T,RH\n2026-04-06 12:00,21,50\n2026-04-06 13:00,21,50\n")},
	{Name: "logger-twice", Title: "two rows of one minute", Warning: true,
		About: "Of several rows in one minute the first is kept.",
		Wrong: logged("Time,T,RH\n2026-04-06 12:00,21,50\n2026-04-06 12:00,25,98\n"), Right: logged("Time,T,RH\n2026-04-06 12:00,21,50\n2026-04-06 12:01,25,98\n")},
}
