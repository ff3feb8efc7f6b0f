package content

import (
	"regexp"
	"strings"
	"testing"
	"testing/fstest"

	"github.com/rogpeppe/go-internal/txtar"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"wardian/content/format"
	"wardian/content/source"
)

// inMemory is the sound diary with more files laid over it.
func inMemory(t testing.TB, more map[string]string) fstest.MapFS {
	t.Helper()
	sound, err := txtar.ParseFile(diaries + "/sound.txtar")
	require.NoError(t, err)
	out := fstest.MapFS{}
	for _, f := range sound.Files {
		out[f.Name] = &fstest.MapFile{Data: f.Data}
	}
	for name, text := range more {
		out[name] = &fstest.MapFile{Data: []byte(text)}
	}
	return out
}

// fileFor is a file of a kind with some lines, and where it stands.
func fileFor(kind, lines string) (path, text string) {
	front := "---\n" + lines + "\n---\n"
	switch kind {
	case "diary":
		return "diary.yaml", lines + "\n"
	case "import":
		return "imports/2026-spring-b.md", front
	case "specimen":
		return "specimens/b26-01.md", front
	case "place":
		return "places/shelf.md", front
	case "update":
		return "updates/one.md", front
	case "season":
		return "seasons/spring.md", front
	case "order":
		return "order.yaml", lines + "\n"
	case "plate":
		return "updates/one.md", "---\ntitle: One\ndate: 2026-04-20\n---\n```plate\n" + lines + "\n```\n"
	}
	return "check-ins/a.md", front
}

// beside are keys without which another makes no sense.
var beside = map[string]string{
	"cause": "outcome: lost", "last-good": "outcome: lost", "since": "event: power cut", "event": "place: tote", "others": "place: tote",
	"not-seen": "place: tote", "renamed": "received-as: Hoya sp.", "by": "place: tote",
}

// Every key's example is read without a finding, nested ones too, and no key
// stands in the tables that reading never asks for.
func TestEveryKeyIsRead(t *testing.T) {
	seen := map[string]bool{}
	asked = func(kind, key string) { seen[kind+" "+key] = true }
	defer func() { asked = nil }()
	more := map[string]string{
		"photos/2026/04/b26-03.jpg": "x", "readings/tote-1.csv": "Time,Temp (C),RH %\n2026-04-06 12:00,25,98\n",
		"lists/2024-spring.csv": "id;name;size;price;last seen;lost;sold;cause;notes\n",
		"specimens/b26-04.md":   "---\nname: Hoya lacunosa\nimport: 2026-spring-b\n---\n", "specimens/b26-10.md": "---\nname: Hoya lacunosa\nimport: 2026-spring-b\n---\n",
	}
	tried := 0
	var try func(file *format.File, k format.Key, wrap func(string) string)
	try = func(file *format.File, k format.Key, wrap func(string) string) {
		t.Run(strings.ReplaceAll(file.Name, " ", "-")+"/"+k.Name, func(t *testing.T) {
			tried++
			var lines []string
			own := wrap(k.Name + ": " + k.Example)
			for _, other := range file.Keys {
				if other.Required && !strings.HasPrefix(own, other.Name+":") {
					lines = append(lines, other.Name+": "+other.Example)
				}
			}
			switch file.Name {
			case "round":
				if k.Name == "since" {
					lines = append(lines, "place: tote")
				}
				if k.Name != "specimens" {
					lines = append(lines, "specimens: {b26-01: same}")
				}
			case "place note":
				if k.Name != "place" {
					lines = append(lines, "place: tote")
				}
			}
			with := beside[k.Name]
			if file.Name == "import" {
				with = "" // its list's columns have names of other kinds' keys
			}
			if file.Name == "plate" && k.Name != "show" {
				lines = []string{"show: " + map[string]string{"import": "survival", "by": "survival", "specimen": "then-and-now", "place": "place"}[k.Name]}
				with = ""
			}
			if file.Name == "update" || file.Name == "place note" && (k.Name == "event" || k.Name == "by") || file.Name == "check-in" && k.Name == "by" {
				with = ""
			}
			if with != "" && !strings.Contains(strings.Join(lines, "\n")+"\n"+own, with) {
				lines = append(lines, with)
			}
			text := strings.Join(append(lines, own), "\n")
			if k.Name == "arrival" { // made on the day of arrival
				text = strings.ReplaceAll(text, "date: 2026-04-06", "date: 2026-03-09")
			}
			if file.Name == "diary" && k.Name != "currency" {
				text += "\ncurrency: NOK"
			}
			if (file.Name == "import" || file.Name == "order") && k.Name != "rates" {
				text += "\nrates: {USD: 10.52}"
			}
			files := map[string]string{}
			for name, data := range more {
				files[name] = data
			}
			path, data := fileFor(file.Name, text)
			files[path] = data
			diary, report, err := Load(inMemory(t, files), Options{Today: faultsToday})
			require.NoError(t, err)
			if file.Name == "order" { // no file of the diary's
				ReadOrder(source.New(path, []byte(data)), &diary.Settings, report)
			}
			for _, f := range report.Findings() {
				if f.Code == "received-differs" || f.Code == "log-unnamed" || f.Code == "list-unnamed" { // the sound diary has fewer plants, and names no log
					continue
				}
				assert.Fail(t, "an example isn't read", "%s\n%s", f.Long(), data)
			}
		})
		for _, sub := range k.Value.Keys {
			if k.Name == "specimens" {
				continue // the keys of a plant's line are those of a check-in
			}
			try(file, sub, func(s string) string {
				rest := ""
				for _, r := range k.Value.Keys {
					if r.Required && r.Name != sub.Name {
						rest += ", " + r.Name + ": " + r.Example
					}
				}
				return wrap(k.Name + ": {" + s + rest + "}")
			})
		}
		if item := k.Value.Item; item != nil && (item.Kind == format.Map || item.Kind == format.Photo) {
			for _, sub := range item.Keys {
				if sub.Name == "file" || k.Name == "refunds" || k.Name == "photos" || k.Name == "lines" {
					continue // whole in the key's own example, or below
				}
				try(file, sub, func(s string) string { return wrap(k.Name + ": [{" + s + "}]") })
			}
		}
	}
	for _, file := range format.Files() {
		for _, k := range file.Keys {
			try(file, k, func(s string) string { return s })
		}
	}
	require.Greater(t, tried, 150, "keys tried")
	// A picture as a map, which no key's example shows.
	_, report, err := Load(inMemory(t, map[string]string{"check-ins/a.md": "---\ndate: 2026-04-06\nspecimen: b26-01\nphotos: [{file: 2026-04-06/b26-01.jpg, alt: \"two leaves\", taken: 2026-04-05}]\n---\n"}), Options{Today: faultsToday})
	require.NoError(t, err)
	require.Empty(t, long(report.Findings()))

	numbers := regexp.MustCompile(`^(refunds)\.[0-9]+\.|^(specimens)\.[^.]+\.`)
	known := map[string]bool{}
	for k := range seen {
		kind, key, _ := strings.Cut(k, " ")
		if kind == "place" && strings.HasPrefix(key, "note ") {
			kind, key = "place note", strings.TrimPrefix(key, "note ")
		}
		known[kind+" "+numbers.ReplaceAllString(key, "$1$2.")] = true
	}
	var check func(kinds []string, prefix string, keys []format.Key)
	check = func(kinds []string, prefix string, keys []format.Key) {
		for _, k := range keys {
			ok := false
			for _, kind := range kinds {
				ok = ok || known[kind+" "+prefix+k.Name]
			}
			assert.True(t, ok, "no reader asks for %s%s of a %s", prefix, k.Name, kinds[0])
			if k.Name != "specimens" {
				check(kinds, prefix+k.Name+".", k.Value.Keys)
			}
			if k.Value.Item != nil && k.Name != "specimens" {
				check(kinds, prefix+k.Name+".", k.Value.Item.Keys)
			}
		}
	}
	for _, file := range format.Files() {
		kinds := []string{file.Name}
		if strings.HasPrefix(file.Path, "check-ins") {
			kinds = []string{file.Name, "check-in"} // its date is read before it is known what it is
		}
		check(kinds, "", file.Keys)
	}
}
