package search

import "strings"

// Query is what is looked for: phrases, all of which must stand in one sentence.
type Query struct{ phrases [][]string }

// Look makes a query of what a user typed: each argument is one or more words
// that follow each other. Arguments without a letter or digit say nothing; ok is
// false where none says anything.
func Look(args []string) (q Query, ok bool) {
	for _, a := range args {
		var phrase []string
		for _, w := range split(a) {
			phrase = append(phrase, w.text)
		}
		if len(phrase) > 0 {
			q.phrases = append(q.phrases, phrase)
		}
	}
	return q, len(q.phrases) > 0
}

// in says whether all phrases stand in a sentence.
func (q Query) in(sentence string) bool {
	words := split(sentence)
	for _, p := range q.phrases {
		if places(words, p) == nil {
			return false
		}
	}
	return true
}

// places gives the bytes at which a phrase stands among words. Its last word may
// be the beginning of a longer one.
func places(words []word, phrase []string) []int {
	var out []int
	last := len(phrase) - 1
next:
	for i := 0; i+last < len(words); i++ {
		for j, p := range phrase {
			if w := words[i+j].text; w != p && (j < last || !strings.HasPrefix(w, p)) {
				continue next
			}
		}
		out = append(out, words[i].at)
	}
	return out
}
