package main

import (
	"encoding/json"
	"fmt"
	"io"
	"os"
	"path/filepath"
	"strings"

	"github.com/spf13/cobra"

	"wardian/build/search"
	"wardian/content"
	"wardian/content/measure"
	"wardian/content/source"
)

func newFind() *cobra.Command {
	var dir string
	var only search.Only
	var asJSON, quiet bool
	cmd := &cobra.Command{
		Use:  "find WORDS [DIR]",
		Long: helpText("find"),
		Args: cobra.ArbitraryArgs,
		RunE: func(cmd *cobra.Command, args []string) error {
			words := args
			if dir == "" {
				words, dir = wordsAndFolder(args)
			}
			query, ok := search.Look(words)
			if !ok {
				return wrongUse{message: "wardian find takes the words to look for", next: "such as: wardian find springtails"}
			}
			if _, err := folder([]string{dir}); err != nil {
				return err
			}
			if !isDiary(dir) {
				return wrongUse{message: fmt.Sprintf("%s is no diary: there is no diary.yaml in it", dir), next: "name the diary's folder: wardian find WORDS DIR"}
			}
			v := voice{out: cmd.OutOrStdout(), talk: cmd.ErrOrStderr(), quiet: quiet}
			l, err := v.read(dir, content.Options{Today: measure.NoDay})
			if err != nil {
				return err
			}
			defer l.close()
			return tellFinds(v, l, query, only, asJSON)
		},
	}
	cmd.Flags().StringVar(&dir, "diary", "", "")
	cmd.Flags().StringVar(&only.Specimen, "specimen", "", "")
	cmd.Flags().StringVar(&only.Place, "place", "", "")
	cmd.Flags().BoolVar(&asJSON, "json", false, "")
	cmd.Flags().BoolVar(&quiet, "quiet", false, "")
	return cmd
}

// wordsAndFolder parts the diary's folder from the words. The last of several
// arguments is the folder if a diary stands there; a single one is a word.
func wordsAndFolder(args []string) (words []string, dir string) {
	if last := len(args) - 1; last > 0 && isDiary(args[last]) {
		return args[:last], args[last]
	}
	return args, "."
}

// isDiary says whether a folder holds a diary.
func isDiary(dir string) bool {
	info, err := os.Stat(filepath.Join(dir, "diary.yaml"))
	return err == nil && info.Mode().IsRegular()
}

// tellFinds searches, and prints what was found.
func tellFinds(v voice, l *loaded, query search.Query, only search.Only, asJSON bool) error {
	if err := knownOnly(l.diary, only); err != nil {
		return err
	}
	found := search.Find(l.diary, query, only)
	for i := range found {
		var err error
		if asJSON {
			err = jsonFind(v.out, l.diary, &found[i])
		} else {
			_, err = fmt.Fprintln(v.out, longFind(l.diary, &found[i]))
		}
		if err != nil {
			return err
		}
	}
	if n := l.report.Errors(); n > 0 {
		v.say(fmt.Sprintf("the diary has %s, and what can't be read isn't found; next: wardian proof", counted(n, "error", "errors")))
	}
	switch {
	case len(found) == 0:
		v.say("found nowhere")
	case !asJSON:
		v.say(counted(len(found), "sentence", "sentences") + ", newest first")
	}
	return nil
}

// knownOnly refuses a specimen or a place that the diary doesn't have.
func knownOnly(d *content.Diary, only search.Only) error {
	refuse := func(what, id string, ids []string) error {
		use := wrongUse{message: fmt.Sprintf("there is no %s %s in the diary", what, id)}
		if near := source.Nearest(id, ids); near != "" {
			use.next = fmt.Sprintf("nearest: --%s %s", what, near)
		}
		return use
	}
	if only.Specimen != "" && d.Specimen(only.Specimen) == nil {
		var ids []string
		for _, s := range d.Specimens {
			ids = append(ids, s.ID)
		}
		return refuse("specimen", only.Specimen, ids)
	}
	if only.Place != "" && d.Place(only.Place) == nil {
		var ids []string
		for _, p := range d.Places {
			ids = append(ids, p.ID)
		}
		return refuse("place", only.Place, ids)
	}
	return nil
}

// longFind is one find as it is read: day and plant, where it stands, the sentence.
func longFind(d *content.Diary, f *search.Found) string {
	var head []string
	if f.When.Known() {
		head = append(head, f.When.String())
	}
	for i, id := range f.Specimens {
		head = append(head, strings.TrimSpace(id+" "+names(d, f)[i]))
	}
	if f.Place != "" {
		head = append(head, "at "+f.Place)
	}
	if len(head) == 0 {
		head = append(head, f.Kind)
	}
	return unsteered(fmt.Sprintf("%s\n  %s:%d:%d\n  %s\n", strings.Join(head, ", "), f.File, f.Line, f.Column, f.Sentence))
}

// names are the names of a find's specimens.
func names(d *content.Diary, f *search.Found) []string {
	out := make([]string, len(f.Specimens))
	for i, id := range f.Specimens {
		if s := d.Specimen(id); s != nil {
			out[i] = s.Name
		}
	}
	return out
}

// unsteered takes characters that could steer a terminal out of a diary's words.
func unsteered(text string) string {
	return strings.Map(func(r rune) rune {
		if r != '\n' && (r < ' ' || r >= 0x7f && r < 0xa0 || r >= 0x202a && r <= 0x202e || r >= 0x2066 && r <= 0x2069) {
			return '\uFFFD'
		}
		return r
	}, text)
}

// jsonFind prints one find as a line of JSON; schemas/find.json tells its keys.
func jsonFind(out io.Writer, d *content.Diary, f *search.Found) error {
	day, time, _ := strings.Cut(f.When.String(), " ")
	specimens := f.Specimens
	if specimens == nil {
		specimens = []string{}
	}
	e := json.NewEncoder(out)
	e.SetEscapeHTML(false)
	return e.Encode(struct {
		File      string   `json:"file"`
		Line      int      `json:"line"`
		Column    int      `json:"column"`
		Day       string   `json:"day"`
		Time      string   `json:"time"`
		Kind      string   `json:"kind"`
		Specimens []string `json:"specimens"`
		Names     []string `json:"names"`
		Place     string   `json:"place"`
		In        string   `json:"in"`
		Sentence  string   `json:"sentence"`
	}{f.File, f.Line, f.Column, day, time, f.Kind, specimens, names(d, f), f.Place, f.In, f.Sentence})
}
