package content

import (
	"fmt"
	"path"
	"strings"

	"wardian/content/readings"
	"wardian/content/source"
)

// maxLog is the longest logger file that is read, in bytes: some four years of a
// reading a minute.
const maxLog = 64 << 20

// loggers are the logs that places name, read once all places are known.
type loggers struct {
	named []log
	amiss bool // one of them wasn't found: a file that none names may be it
}

// log is what one place says of its logger.
type log struct {
	place   *Place
	reader  *reader
	pattern string
	at      source.Span // of the pattern
	columns readings.Columns
}

// logger keeps what a place says of its logger.
func (l *loader) logger(p *Place, r *record) {
	log := log{place: p, reader: r.reader, pattern: r.text("file"), at: r.spanOf("file"),
		columns: readings.Columns{Time: r.text("time"), Temperature: r.text("temperature"), Humidity: r.text("humidity")}}
	if log.pattern != "" && log.columns.Time != "" && log.columns.Temperature != "" && log.columns.Humidity != "" {
		l.loggers.named = append(l.loggers.named, log)
	}
}

// readLoggers reads the files that places name; pieces that overlap are merged.
func (l *loader) readLoggers() error {
	files, err := l.files("readings", true)
	if err != nil {
		return err
	}
	used := map[string]bool{}
	for _, log := range l.loggers.named {
		if err := l.readLog(log, files, used); err != nil {
			return err
		}
	}
	for _, f := range files {
		if !used[f] && strings.HasSuffix(strings.ToLower(f), ".csv") && len(l.loggers.named) > 0 && !l.loggers.amiss {
			l.fault("log-unnamed", f, "no place names this file", "readings: {file: ...} in a file under places/", "name it there, or let a * take it in")
		}
	}
	return nil
}

func (l *loader) readLog(log log, files []string, used map[string]bool) error {
	var pieces [][]readings.Reading
	found := false
	for _, f := range files {
		ok, err := path.Match(log.pattern, f)
		if err != nil {
			l.loggers.amiss = true
			log.reader.fault("no-log", log.at, quoted(log.pattern)+" can't be read as the name of files", "a path with * for anything", "close the bracket, or write * instead")
			return nil
		}
		if !ok {
			continue
		}
		found = true
		used[f] = true
		data, err := l.read(f, maxLog)
		if err != nil {
			return err
		}
		if data != nil {
			s := &l.diary.Settings
			pieces = append(pieces, readings.Read(source.New(f, data), log.columns, s.Zone, s.Units, l.report))
		}
	}
	if !found {
		hint := nearest(log.pattern, files)
		if rest := "readings/" + log.pattern; hint == "" && !strings.HasPrefix(log.pattern, "readings/") {
			for _, f := range files {
				if ok, _ := path.Match(rest, f); ok {
					hint = "write " + rest
				}
			}
		}
		if hint == "" {
			hint = "put the logger's file under readings/"
		}
		l.loggers.amiss = true
		log.reader.fault("no-log", log.at, "no file is called "+quoted(log.pattern), "a path from the diary's folder on, such as readings/tote*.csv", hint)
		return nil
	}
	if n := len(readings.Conflicts(pieces...)); n > 0 {
		log.reader.fault("log-conflict", log.at, fmt.Sprintf("pieces of this log differ (minutes: %d)", n), "pieces of one logger", "look whether one of the files is another place's; the first by name is kept")
	}
	log.place.Readings = readings.Merge(pieces...)
	return nil
}
